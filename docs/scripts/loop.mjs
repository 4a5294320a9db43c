// Makes docs/loop.md and docs/loop.svg: whole jobs from the first pot to the last card, in a world of other physics
// than the package's (test/simulator). Seeded; no data needed. Takes some minutes.
// Run from the root: node docs/scripts/loop.mjs [jobs]
import { writeFileSync } from "node:fs";
import { quantile, spread, table } from "./figures.mjs";
import { importSources } from "./importSources.mjs";
import { sharePlot } from "./loopPlot.mjs";

const [worlds, running, ways] = await importSources(
  "test/simulator/world.ts",
  "test/loop/runJob.ts",
  "test/loop/arms.ts",
);
const { afterCorrections, runJob } = running;

const JOBS = Number(process.argv[2] ?? 510);
const FEWER_JOBS = Math.ceil(JOBS / 2);
const FIRST_SEED = 1000;
const LIMIT = 0.5;
const LOST = 1;
const GROUPS = ["light", "mid", "dark"];
const SILENT = { noise: 0, gun: 0, pouring: 0 };

const toners = worlds.knownToners();
const run = (arm, options, jobs = JOBS) =>
  Array.from({ length: jobs }, (_, i) => runJob(FIRST_SEED + i, toners, arm, options));

const percent = (count, of) => `${((100 * count) / of).toFixed(1)} %`;
const within = (outcomes, corrections) =>
  percent(outcomes.filter((one) => afterCorrections(one, corrections) <= LIMIT).length, outcomes.length);
const mean = (values) => values.reduce((sum, value) => sum + value, 0) / values.length;
const ending = ({ deltaE00 }) => deltaE00[deltaE00.length - 1];
const wasted = ({ potGrams, wantedGrams }) => Math.max(0, potGrams - wantedGrams);
const left = (outcomes, corrections) => spread(outcomes.map((one) => afterCorrections(one, corrections)));

const summary = (name, outcomes) => [
  name,
  within(outcomes, 1),
  within(outcomes, 2),
  left(outcomes, 1),
  left(outcomes, 2),
  mean(outcomes.map(({ cards }) => cards)).toFixed(2),
  String(outcomes.filter((one) => ending(one) > LIMIT).length),
  String(outcomes.filter((one) => ending(one) > LOST).length),
  mean(outcomes.map(wasted)).toFixed(0),
];
const SUMMARY_HEAD = [
  "",
  "≤ 0.5 after one",
  "≤ 0.5 after two",
  "ΔE₀₀ after one",
  "ΔE₀₀ after two",
  "cards",
  "> 0.5 at the end",
  "lost",
  "g wasted",
];

const arms = Object.values(ways.ARMS);
const results = arms.map((arm) => ({ arm, outcomes: run(arm) }));
for (const { arm, outcomes } of results) console.log(summary(arm.name, outcomes).join(" | "));
