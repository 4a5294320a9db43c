// Writes docs/mutation.md from the results of `npm run mutation`. Run: node benchmarks/studies/mutation.mjs
import { writeFileSync } from "node:fs";
import { PARTS } from "../../test/mutation/parts.mjs";
import { readSummaries } from "../../test/mutation/results.mjs";
import { table } from "./figures.mjs";
import { EXPLAINED } from "./mutantsExplained.mjs";

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
  return files ? ` of ${files.length} files` : "";
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
  new URL("../../docs/mutation.md", import.meta.url),
  `# Are the tests any good?

Made by \`benchmarks/studies/mutation.mjs\` from the results of \`npm run mutation\`: [Stryker](https://stryker-mutator.io) changes the code in one place (a \`<\` becomes a \`<=\`, a \`+\` a \`−\`, a condition \`true\`, a block empty, a text another), runs the tests of that layer, and looks whether one fails. A mutant that no test notices *lives*: either the change makes no difference, or a test is missing.

${table(head, [...scores, ...unmeasured])}

- Only tests of the mutated part count: \`test/optics\` for \`src/optics\`, and so on. For the parts of \`correction\` those named in \`test/mutation/parts.mjs\`, which look at one piece at a time or at jobs with few toners; tests of whole corrections that take minutes (the contract on all its jobs, random properties, recovery, tampering, exhaustive search on larger jobs) are left out, and so are the certified problems of \`test/certified\` and the tests of the layers above, with all of which the score could only be higher.
- Endless: the change made a loop run on or a test take many times longer; counted as noticed, as usual.
- Not mutated: tables of data, the wording of refusals (their codes and places are), and numbers, which Stryker leaves alone: that a coefficient is right is held by published figures, not by this.
- A sample is drawn by a seed and by where a statement stands; examples of property tests come from one seed: a second run of the same code gives the same. Another sample of the same share would differ by a few per cent (about ±4 % for 200 mutants).
- The numbers are those of the last run of each part (\`test/mutation/results\`), which may speak of lines that have changed since. After tests were written for those that lived, these lines alone were run again (\`--lived\`): what was killed before counts as killed. *Before* is the score of the run itself; where a sample was drawn, that is what to expect of the code that was not drawn.

## Those that lived

${survivors.length} in all, ${unexplained} of them without an explanation: tests still to be written, or changes without effect that nobody has looked into yet.

${table(["where", "line", "what it became", "why it may live"], survivors)}
`,
);
