import { readFileSync, writeFileSync } from "node:fs";
import process from "node:process";
import { run } from "./run.js";

process.exitCode = run(process.argv.slice(2), {
  readFile: (path) => readFileSync(path === "-" ? process.stdin.fd : path, "utf8"),
  writeFile: (path, text) => writeFileSync(path, text),
  write: (text) => process.stdout.write(text),
  writeError: (text) => process.stderr.write(text),
  isWatched: process.stderr.isTTY === true,
});
