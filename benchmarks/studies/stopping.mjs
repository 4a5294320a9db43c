// Makes docs/stopping.md: jobs of the simulated world (test/simulator) that stop when `adviseNextStep` says so, and the
// same jobs by plainer rules. Seeded; no data needed. Run from the root, with the number of jobs if another is wanted:
// node benchmarks/studies/stopping.mjs
import { writeFileSync } from "node:fs";
import { table } from "./figures.mjs";
import { importSources } from "./importSources.mjs";
import { runJobs } from "./runJobs.mjs";

const [{ STEP_PRICES }, { TOLERANCE_DEFAULTS }] = await importSources(
  "src/planning/nextStep/stepPrices.ts",
  "src/tolerance/tolerance.ts",
);
const JOBS = Number(process.argv[2] ?? 60);
const FIRST_SEED = 7000;
const RULES = [
  { name: "advice (`adviseNextStep`)" },
  { name: "until a card reads within 0.3", most: 0.3 },
  { name: "until a card reads within 0.5", most: 0.5 },
];
const GROUPS = ["light", "mid", "dark"];

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

const page = `# When to stop

What comes of following \`adviseNextStep\`, in a world that does not obey this package's equations. Made by \`benchmarks/studies/stopping.mjs\`; seeded, so it comes out the same every time. [theory.md](theory.md#when-to-stop) has the rule.

## What was done

${JOBS} jobs of the world of [loop.md](loop.md): faded panels (edges), cans that are off, a first pot of 85 % of the largest part of the formula and 65 % of the others, cards that err. After each card \`learnStrengths\` learns from all cards so far, then the rule decides. The advice gets what \`correct\` says with a forecast, and the forecast of this card if there was one; it may have card and panel read a second time. Tolerances ${edge} at an edge and ${wider} in a blend. Nothing in the rule was fitted to these jobs.

*Cost* in minutes, mean: by \`STEP_PRICES\` (a card ${STEP_PRICES.card}, a reading ${STEP_PRICES.reading}, a blend ${STEP_PRICES.blend}, a new pot ${STEP_PRICES.newPot}, a gram ${STEP_PRICES.gram}) what was done, and ${STEP_PRICES.redo} for doing it again times how likely the *true* mismatch is seen (within tolerance never, at twice the tolerance always); of a new pot the pot and two cards. *Cards of paint already within ${edge}*: cards that were sprayed after a pour into paint that was truly within tolerance, of all cards after the first.

${table(
  HEAD,
  RULES.map(({ name }, r) => row(name, of(r))),
)}

The advice costs ${Math.abs(mean(difference)).toFixed(0)} minutes a job ${mean(difference) >= 0 ? "less" : "more"} than pouring until a card reads within 0.3 (standard error ${sd.toFixed(1)}).

By group:

${table(
  HEAD,
  RULES.flatMap(({ name }, r) =>
    GROUPS.map((group) =>
      row(
        `${name}: ${group}`,
        of(r).filter((one) => one.group === group),
      ),
    ),
  ),
)}

## What this does not show

The prices are guesses; with others the advice is another. A new pot ends a job here, at its price. One panel, one light, one geometry, no mis-pours. The world is invented: the order of the rules is what to take from here.
`;

writeFileSync(new URL("../../docs/stopping.md", import.meta.url), page);
