// Writes docs/mutation.md from the results of `npm run mutation`. Run: node docs/scripts/mutation.mjs
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { SHARES } from "../../test/mutation/shares.mjs";
import { table } from "./figures.mjs";
import { EXPLAINED } from "./mutantsExplained.mjs";

const result = (layer) => new URL(`../../coverage/mutation/${layer}.json`, import.meta.url);
const measured = Object.keys(SHARES).filter((layer) => existsSync(result(layer)));
if (measured.length === 0) throw new Error("no results yet: npm run mutation");

const layers = measured.map((layer) => {
  const share = SHARES[layer];
  const { files } = JSON.parse(readFileSync(result(layer), "utf8"));
  const mutants = Object.entries(files).flatMap(([file, { source, mutants }]) =>
    mutants.map((mutant) => ({
      ...mutant,
      file,
      line: source.split("\n")[mutant.location.start.line - 1].trim(),
    })),
  );
  const count = (...statuses) => mutants.filter(({ status }) => statuses.includes(status)).length;
  const [killed, timeout, survived, uncovered] = ["Killed", "Timeout", "Survived", "NoCoverage"].map((s) =>
    count(s),
  );
  const score = (killed + timeout) / (killed + timeout + survived + uncovered);
  const living = mutants.filter(({ status }) => status === "Survived" || status === "NoCoverage");
  return { layer, share, killed, timeout, survived, uncovered, score, living };
});

const percent = (value) => `${(100 * value).toFixed(1)} %`;
const scores = layers.map(({ layer, share, killed, timeout, survived, uncovered, score }) => [
  layer,
  share === 1 ? "all" : `a sample of ${percent(share)} of the statements`,
  killed + timeout + survived + uncovered,
  killed,
  timeout,
  survived,
  uncovered,
  `**${percent(score)}**`,
]);
const unmeasured = Object.keys(SHARES)
  .filter((layer) => !measured.includes(layer))
  .map((layer) => [layer, "not yet", ...Array(6).fill("–")]);
const head = ["layer", "mutated", "mutants", "killed", "endless", "lived", "not run by a test", "score"];

const code = (text) => `\`${text.replaceAll("|", "\\|").replaceAll("`", "'")}\``;
const shorten = (text) => (text.length > 90 ? `${text.slice(0, 87)}…` : text);
const oneLine = (text) => shorten(text.replaceAll(/\s+/g, " "));
const survivors = layers.flatMap(({ living }) =>
  living.map(({ file, line, replacement, status, location }) => [
    `${file.replace("src/", "")}:${location.start.line}`,
    code(oneLine(line)),
    code(oneLine(replacement ?? "")),
    reasonOf(file, line) ?? (status === "NoCoverage" ? "no test of the layer runs it" : ""),
  ]),
);

/** Why a mutant of this line may live. */
function reasonOf(file, line) {
  return EXPLAINED.find((one) => file.endsWith(one.file) && line.includes(one.line))?.why;
}

const unexplained = survivors.filter(([, , , why]) => why === "").length;
writeFileSync(
  new URL("../mutation.md", import.meta.url),
  `# Are the tests any good?

Made by \`docs/scripts/mutation.mjs\` from the results of \`npm run mutation\`: [Stryker](https://stryker-mutator.io) changes the code in one place (a \`<\` becomes a \`<=\`, a \`+\` a \`−\`, a condition \`true\`, a block empty, a text another), runs the tests of that layer, and looks whether one fails. A mutant that no test notices *lives*: either the change makes no difference, or a test is missing.

${table(head, [...scores, ...unmeasured])}

- Only tests of the mutated layer count: \`test/optics\` for \`src/optics\`, and so on; the certified problems of \`test/certified\`, the tests of the layers above and the whole-job tests are left out, with which the score could only be higher.
- Endless: the change made a loop run on or a test take many times longer; counted as noticed, as usual.
- Not mutated: tables of data, the wording of refusals (their codes and places are), and numbers, which Stryker leaves alone: that a coefficient is right is held by published figures, not by this.
- Examples of property tests come from one seed, and samples too, so that a second run gives the same.
- The numbers are those of the last run of each layer. Tests written for those that lived count from the next run on.

## Those that lived

${survivors.length} in all, ${unexplained} of them without an explanation: tests still to be written, or changes without effect that nobody has looked into yet.

${table(["where", "line", "what it became", "why it may live"], survivors)}
`,
);
