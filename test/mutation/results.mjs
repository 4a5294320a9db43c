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

/** Those that lived, at the lines where they stand now; what has been changed or moved since is left out. */
function stillThere({ lived }) {
  return lived.flatMap((mutant) => {
    const { file, line, text } = mutant;
    const source = new URL(`../../src/${file}`, import.meta.url);
    const lines = existsSync(source) ? readFileSync(source, "utf8").split("\n") : [];
    const places = lines.flatMap((one, i) => (one.trim() === text ? [i + 1] : []));
    const nearest = places.sort((a, b) => Math.abs(a - line) - Math.abs(b - line))[0];
    return nearest === undefined ? [] : [{ ...mutant, line: nearest }];
  });
}

/** The lines of those that lived. */
export function linesOf(summary) {
  const all = stillThere(summary).map(({ file, line }) => ({ file, line }));
  return all.filter(
    ({ file, line }, i) => all.findIndex((other) => other.file === file && other.line === line) === i,
  );
}

/**
 * A summary with its lines tried again: what lives no more is killed, what is not there any more does not count. What the
 * run itself found stays with it as `first`: tests written for those that lived say nothing of what was not drawn.
 */
export function mergeLived(before, { lived }) {
  const first = before.first ?? { noticed: before.killed + before.endless, lived: before.lived.length };
  return { ...before, killed: before.killed + stillThere(before).length - lived.length, lived, first };
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
