// Writes the section any-eye of docs/evidence.md: jobs of faded panels seen by spectra, by a colorimeter, by eye, and by a
// painter without the model, in the acrylic world of other physics. Needs MASSTONE_OPEN_DATA. Takes some minutes.
// Run from the root: node benchmarks/studies/anyEye.mjs [jobs]
import { quantile, table } from "./figures.mjs";
import { runJobs } from "./runJobs.mjs";
import { writeSection } from "./writeSection.mjs";

if (!process.env.MASSTONE_OPEN_DATA) throw new Error("MASSTONE_OPEN_DATA names no folder");
const JOBS = Number(process.argv[2] ?? 300);
/** Sizes were looked at on seeds from 7000 on. */
const FIRST_SEED = 90_001;

/** A way of seeing, and what is asked of it after one, two and three cards: median, 90 %. */
const CELLS = [
  ["spectra", { arm: "spectra" }],
  ["L\\*a\\*b\\*, sd 0.15", { arm: "lab" }, [0.45, 0.95], [0.3, 0.55], [0.28, 0.5]],
  ["the same, common bias of 1", { arm: "lab", bias: 1 }],
  ["the same, formula not known", { arm: "lab", formulaKnown: false }],
  ["the same, generic toners", { arm: "lab", isGeneric: true }, [], [0.4, 0.7], []],
  ["plain shift of L\\*a\\*b\\*", { arm: "shift" }],
  ["eye", { arm: "eye" }, [1.3, 2.8], [0.85, 1.8], [0.7, 1.4]],
  ["eye, formula not known", { arm: "eye", formulaKnown: false }],
  ["painter without the model", { arm: "painter" }],
  ["another pigment in the panel: spectra", { arm: "spectra", lacks: true }],
  ["another pigment: L\\*a\\*b\\*", { arm: "lab", lacks: true }, [], [], [Infinity, 0.9]],
  ["another pigment: eye", { arm: "eye", lacks: true }],
  ["another pigment: painter", { arm: "painter", lacks: true }],
];

const rows = [];
const times = { correct: [], infer: [] };
const missed = [];
for (const [name, options, ...bars] of CELLS) {
  const jobs = Array.from({ length: JOBS }, (_, i) => ({
    ...options,
    seed: FIRST_SEED + 2 * i,
    kind: i % 3,
  }));
  const outcomes = await runJobs("anyEyeWorker.mjs", jobs);
  const at = (card, light, share) =>
    quantile(
      outcomes.map(({ deltaE00 }) => deltaE00[card][light]),
      share,
    );
  const pair = (card, light = 0) => [0.5, 0.9].map((share) => at(card, light, share));
  const said = (card) => {
    const found = pair(card);
    const bar = bars[card - 1] ?? [];
    const isMissed = bar.some((most, i) => found[i] > most);
    if (isMissed) missed.push(`${name} after ${card}`);
    const text = found.map((value) => value.toFixed(2)).join(" / ");
    return isMissed ? `**${text}**` : text;
  };
  const known = outcomes.filter(({ expected }) => expected.length > 0);
  const holds = [1, 2, 3].map((card) => {
    const hit = known.filter(
      ({ deltaE00, expected }) => deltaE00[card][0] <= (expected[card - 1]?.deltaE00Most ?? 0),
    );
    return known.length === 0 ? "–" : `${Math.round((100 * hit.length) / known.length)}`;
  });
  const text = (card, light) =>
    pair(card, light)
      .map((value) => value.toFixed(2))
      .join(" / ");
  rows.push([
    name,
    text(0),
    said(1),
    said(2),
    said(3),
    text(3, 1),
    known.length === 0 ? "–" : `${holds.join(", ")} %`,
  ]);
  if (options.arm === "lab" || options.arm === "eye") {
    times.correct.push(...outcomes.flatMap(({ milliseconds }) => milliseconds));
    times.infer.push(...outcomes.flatMap(({ inferred }) => inferred));
  }
  console.error(rows.at(-1).join(" | "));
}

const HEAD = [
  "seen by",
  "before",
  "after one card",
  "after two",
  "after three",
  "after three, under A",
  "90 % bound holds after 1, 2, 3",
];
const MAIN = [
  "spectra",
  "L\\*a\\*b\\*, sd 0.15",
  "plain shift of L\\*a\\*b\\*",
  "eye",
  "eye, formula not known",
  "painter without the model",
];

writeSection(
  "any-eye",
  `## Spectrum, colorimeter or eye

${JOBS} jobs a row, D65 and 10°, real K and S of acrylics (Berns 2016) in a world of other surface, white that crowds and cans off by 20 %. A panel has lost some of its colours, the pot holds part of its formula. Colorimeter: noise of 0.15 in each of L\\*, a\\*, b\\*. Eye: grades of ISO 3668, noise of 30 % of the difference and 0.5, its gain off by 20 %. The painter without the model knows what every toner does and pours the one or two that best lessen what he sees, at 70 %; the plain shift does the same with L\\*a\\*b\\*, in full. ΔE₀₀ as median / 90 %; bold: over what was aimed at${missed.length === 0 ? " (none)" : ""}.

${table(
  HEAD,
  rows.filter(([name]) => MAIN.includes(name)),
)}

Working out what was seen (${"`inferReadings`"}, everything included) takes ${quantile(times.infer, 0.5).toFixed(0)} ms in the median, a whole correction ${quantile(times.correct, 0.5).toFixed(0)} ms.

Not shown: real eyes and booths. The noise of an eye is a design value; observers differ more than instruments (ASTM D1729).`,
  `# Spectrum, colorimeter or eye: variants

${table(
  HEAD,
  rows.filter(([name]) => !MAIN.includes(name)),
)}`,
);
