import { readdirSync, readFileSync, writeFileSync } from "node:fs";

const FOLDER = new URL("results/", import.meta.url);

/** What is kept of a run: how many mutants met which end, and those that lived. */
export function summarise(part, share, { files }) {
  const mutants = Object.entries(files).flatMap(([file, { source, mutants }]) =>
    mutants.map((mutant) => ({ ...mutant, file, lines: source.split("\n") })),
  );
  const count = (status) => mutants.filter((mutant) => mutant.status === status).length;
  const lived = mutants
    .filter(({ status }) => status === "Survived" || status === "NoCoverage")
    .map(({ file, lines, location, replacement, status }) => ({
      file: file.replace(/^src\//, ""),
      line: location.start.line,
      text: lines[location.start.line - 1].trim(),
      became: replacement ?? "",
      isRun: status === "Survived",
    }));
  return { part, share, killed: count("Killed"), endless: count("Timeout"), lived };
}

export function writeSummary(summary) {
  const file = new URL(`${summary.part.replace("/", "-")}.json`, FOLDER);
  writeFileSync(file, `${JSON.stringify(summary, null, 2)}\n`);
}

export function readSummaries() {
  return readdirSync(FOLDER)
    .filter((name) => name.endsWith(".json"))
    .map((name) => JSON.parse(readFileSync(new URL(name, FOLDER), "utf8")));
}
