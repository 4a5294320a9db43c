// Writes "mutation" in docs/evidence.md and test/mutation/lived.tsv from the results of `npm run mutation`. Run: node benchmarks/studies/mutation.mjs
import { writeFileSync } from "node:fs";
import { PARTS } from "../../test/mutation/parts.mjs";
import { readSummaries } from "../../test/mutation/results.mjs";
import { table } from "./figures.mjs";
import { EXPLAINED } from "./mutantsExplained.mjs";
import { writeSection } from "./writeSection.mjs";

const summaries = readSummaries();
const ofPart = (part) => summaries.find((summary) => summary.part === part);
const measured = Object.keys(PARTS).filter(ofPart).map(ofPart);

const percent = (value) => `${(100 * value).toFixed(1)} %`;
const scores = measured.map(({ part, share, killed, endless, lived, first }) => {
  const noticed = killed + endless;
  const uncovered = lived.filter(({ isRun }) => !isRun).length;
  return [
    part,
    share === 1 ? "all" : `a sample of ${percent(share)} of the statements${ofFiles(part)}`,
    noticed + lived.length,
    killed,
    endless,
    lived.length - uncovered,
    uncovered,
    `**${percent(noticed / (noticed + lived.length))}**`,
    first ? percent(first.noticed / (first.noticed + first.lived)) : "–",
  ];
});
/** Where not all files of a folder are mutated: how many of them. */
function ofFiles(part) {
  const { files } = PARTS[part];
  return files && !files.some((name) => name.includes("*")) ? ` of ${files.length} files` : "";
}

const unmeasured = Object.keys(PARTS)
  .filter((part) => !ofPart(part))
  .map((part) => [part, "not yet", ...Array(7).fill("–")]);
const head = [
  "part",
  "mutated",
  "mutants",
  "killed",
  "endless",
  "lived",
  "not run by a test",
  "score",
  "before",
];

const code = (text) => `\`${text.replaceAll("|", "\\|").replaceAll("`", "'")}\``;
const shorten = (text) => (text.length > 90 ? `${text.slice(0, 87)}…` : text);
const oneLine = (text) => shorten(text.replaceAll(/\s+/g, " "));
const survivors = measured.flatMap(({ lived }) =>
  lived.map(({ file, line, text, became, isRun }) => [
    `${file}:${line}`,
    code(oneLine(text)),
    code(oneLine(became)),
    reasonOf(file, text, became) ?? (isRun ? "" : "no test of the part runs it"),
  ]),
);

/** Why a mutant of this line may live. */
function reasonOf(file, text, change) {
  return EXPLAINED.find(
    (one) => file === one.file && text.includes(one.line) && (one.became?.test(change) ?? true),
  )?.why;
}

const unexplained = survivors.filter(([, , , why]) => why === "").length;
writeFileSync(
  new URL("../../test/mutation/lived.tsv", import.meta.url),
  [["where", "line", "what it became", "why it may live"], ...survivors]
    .map((cells) => `${cells.join("\t")}\n`)
    .join(""),
);
writeSection(
  "mutation",
  `## Would the tests notice?

[Stryker](https://stryker-mutator.io) changes the code in one place, runs the tests of that layer (for \`correction\` those in \`test/mutation/parts.mjs\`) and looks whether one fails. *Endless*: a loop ran on, counted as noticed. Tables of data, wording and numbers are not mutated. A sample of another seed would differ by about ±4 %.

${table(head, [...scores, ...unmeasured])}

The ${survivors.length} that lived stand in \`test/mutation/lived.tsv\`, ${unexplained} of them without an explanation.`,
);
