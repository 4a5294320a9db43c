import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";

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

/** The lines of those that lived, where they stand now; what has been changed or moved since is left out. */
export function linesOf({ lived }) {
  const all = lived.flatMap(({ file, line, text }) => {
    const source = new URL(`../../src/${file}`, import.meta.url);
    const lines = existsSync(source) ? readFileSync(source, "utf8").split("\n") : [];
    const places = lines.flatMap((one, i) => (one.trim() === text ? [i + 1] : []));
    const nearest = places.sort((a, b) => Math.abs(a - line) - Math.abs(b - line))[0];
    return nearest === undefined ? [] : [{ file, line: nearest }];
  });
  return all.filter(
    ({ file, line }, i) => all.findIndex((other) => other.file === file && other.line === line) === i,
  );
}

/** A summary with those of its lines that were tried again: what lives no more is killed. */
export function mergeLived(before, { lived }) {
  return { ...before, killed: before.killed + before.lived.length - lived.length, lived };
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
