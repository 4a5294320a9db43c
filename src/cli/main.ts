import { readFileSync } from "node:fs";
import process from "node:process";
import { run } from "./run.js";

process.exitCode = run(process.argv.slice(2), {
  readFile: (path) => readFileSync(path === "-" ? process.stdin.fd : path, "utf8"),
  write: (text) => process.stdout.write(text),
  writeError: (text) => process.stderr.write(text),
});
