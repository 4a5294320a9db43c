import { readFileSync, writeFileSync } from "node:fs";
import process from "node:process";
import { appendToRecord, readRecordTexts } from "./recordTexts.js";
import { run } from "./run.js";

const { argv, env, stdin, stdout, stderr } = process;

for (const stream of [stdout, stderr]) {
  // Whoever reads us may stop early: `masstone … | head -1` is no fault.
  stream.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code !== "EPIPE") throw error;
  });
}

process.exitCode = run(argv.slice(2), {
  readFile: (path) => readFileSync(path === "-" ? stdin.fd : path, "utf8"),
  writeFile: (path, text) => writeFileSync(path, text),
  readRecord: readRecordTexts,
  appendToRecord,
  now: () => new Date().toISOString(),
  write: (text) => stdout.write(text),
  writeError: (text) => stderr.write(text),
  isWatched: stderr.isTTY === true,
  isStyled: stdout.isTTY === true && (env.NO_COLOR ?? "") === "" && env.TERM !== "dumb",
});
