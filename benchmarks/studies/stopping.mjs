// Makes "stopping" in docs/evidence.md: jobs of the simulated world (test/simulator) that stop when `adviseNextStep` says so, and the
// same jobs by plainer rules. Seeded; no data needed. Run from the root, with the number of jobs if another is wanted:
// node benchmarks/studies/stopping.mjs
import { table } from "./figures.mjs";
import { importSources } from "./importSources.mjs";
import { runJobs } from "./runJobs.mjs";
import { writeSection } from "./writeSection.mjs";

const [{ STEP_PRICES }, { TOLERANCE_DEFAULTS }] = await importSources(
  "src/problem/stepPrices.ts",
  "src/tolerance/tolerance.ts",
);
const JOBS = Number(process.argv[2] ?? 60);
const FIRST_SEED = 7000;
const RULES = [
  { name: "advice (`adviseNextStep`)" },
  { name: "until a card reads within 0.3", most: 0.3 },
  { name: "until a card reads within 0.5", most: 0.5 },
];

const jobs = RULES.flatMap(({ most }) =>
  Array.from({ length: JOBS }, (_, i) => ({ seed: FIRST_SEED + i, most })),
);
const outcomes = await runJobs("stoppingWorker.mjs", jobs);
const of = (r) => outcomes.slice(r * JOBS, (r + 1) * JOBS);

const mean = (values) => values.reduce((sum, value) => sum + value, 0) / values.length;
const percent = (part, whole) => (whole === 0 ? "–" : `${((100 * part) / whole).toFixed(0)} % of ${whole}`);
const lastStep = ({ steps }) => steps.at(-1).step;
const { edgeDeltaE00: edge, blendDeltaE00: wider } = TOLERANCE_DEFAULTS;
const isCard = ({ step }) => step === "pour" || step === "pour-off";
const stops = (some, step) => some.filter((one) => lastStep(one) === step);
const HEAD = [
  "",
  "jobs",
  "painted as it was",
  "truly within 0.5",
  "blended",
  "truly within 1.0",
  "new pot, or no end",
  "cards",
  "second readings",
  "cards of paint already within 0.5",
  "cost",
];
const row = (name, some) => {
  const painted = stops(some, "good-enough");
  const blended = stops(some, "blend");
  const pours = some.flatMap(({ steps }) => steps.filter(isCard));
  return [
    name,
    String(some.length),
    String(painted.length),
    percent(painted.filter(({ deltaE00 }) => deltaE00 <= edge).length, painted.length),
    String(blended.length),
    percent(blended.filter(({ deltaE00 }) => deltaE00 <= wider).length, blended.length),
    String(some.length - painted.length - blended.length),
    mean(some.map(({ steps }) => 1 + steps.filter(isCard).length)).toFixed(2),
    mean(some.map(({ steps }) => steps.filter(({ step }) => step === "re-measure").length)).toFixed(2),
    percent(pours.filter(({ deltaE00 }) => deltaE00 <= edge).length, pours.length),
    mean(some.map(({ cost }) => cost)).toFixed(0),
  ];
};
const difference = of(0).map(({ cost }, i) => of(1)[i].cost - cost);
const sd = Math.sqrt(mean(difference.map((value) => (value - mean(difference)) ** 2)) / JOBS);

writeSection(
  "stopping",
  `## When to stop

${JOBS} jobs of the world of [whole jobs](#whole-jobs), ended by \`adviseNextStep\` or by a fixed rule. *Cost*: minutes by \`STEP_PRICES\`, with ${STEP_PRICES.redo} for doing it again times how likely the true mismatch is seen. The prices are guesses.

${table(
  HEAD,
  RULES.map(({ name }, r) => row(name, of(r))),
)}

The advice costs ${Math.abs(mean(difference)).toFixed(0)} minutes a job ${mean(difference) >= 0 ? "less" : "more"} than pouring until a card reads within 0.3 (standard error ${sd.toFixed(1)}).`,
);
