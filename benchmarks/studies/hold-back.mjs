// Makes "hold-back" in docs/evidence.md: what the promises of a plan are worth in the simulated world of test/simulator, whose
// physics are not the package's. Seeded; no data needed. A few minutes on two threads.
// Run from the root: node benchmarks/studies/hold-back.mjs [pots]
import { quantile, table } from "./figures.mjs";
import { importSources } from "./importSources.mjs";
import { runJobs } from "./runJobs.mjs";
import { writeSection } from "./writeSection.mjs";

const [defaults] = await importSources("src/planning/holdBack/planOptions.ts");

const POTS = Number(process.argv[2] ?? 10_000);
const FADES = Math.min(400, POTS);
const GROUPS = ["light", "mid", "dark"];
const { reachProbability } = defaults.PLAN_DEFAULTS;

const run = (count, trial) =>
  runJobs(
    "holdBackWorker.mjs",
    Array.from({ length: count }, (_, seed) => ({ trial, seed })),
  );
const pots = await run(POTS, "reachTrial");
const fades = await run(FADES, "fadeTrial");

const percent = (values, holds) => `${((100 * values.filter(holds).length) / values.length).toFixed(1)} %`;
const byGroup = (values, row) =>
  [...GROUPS, "all"].map((group) =>
    row(
      group,
      values.filter((one) => group === "all" || one.group === group),
    ),
  );

const reach = byGroup(pots, (group, some) => [
  group,
  some.length,
  percent(some, ({ isReached }) => !isReached),
  percent(some, ({ isReachedFromFull }) => !isReachedFromFull),
  `${(
    100 *
      quantile(
        some.map(({ keptBack }) => keptBack),
        0.5,
      )
  ).toFixed(0)} %`,
]);

const fractionsOf = (some, isFugitive) =>
  some.flatMap(({ fractions }) => fractions.filter((one) => one.isFugitive === isFugitive));
const isCovered = ({ truth, low, high }) => low <= truth && truth <= high;
const rms = (fractions) =>
  Math.sqrt(
    fractions.reduce((sum, { found, truth }) => sum + Math.log(found / truth) ** 2, 0) / fractions.length,
  );
const fadeRows = [true, false].flatMap((isFreshRead) =>
  byGroup(
    fades.filter((one) => one.isFreshRead === isFreshRead),
    (group, some) => {
      const [fugitive, fast] = [fractionsOf(some, true), fractionsOf(some, false)];
      return [
        isFreshRead ? "read" : "not read",
        group,
        fugitive.length,
        percent(fugitive, isCovered),
        `${(100 * rms(fugitive)).toFixed(0)} %`,
        percent(fast, isCovered),
        `${(100 * rms(fast)).toFixed(0)} %`,
      ];
    },
  ),
);

const STEPS = [0, 1, 2, 4, Number.POSITIVE_INFINITY];
const variantRows = [
  ...STEPS.slice(1).map((most, i) => [`${STEPS[i]} – ${Number.isFinite(most) ? most : ""}`, STEPS[i], most]),
  ["all", 0, Number.POSITIVE_INFINITY],
].map(([name, least, most]) => {
  const some = fades.filter(({ variantDeltaE00: d }) => d >= least && d < most);
  return [
    name,
    some.length,
    percent(some, ({ right }) => right.isFirst),
    percent(some, ({ wrong }) => !wrong.explains),
    percent(some, ({ right }) => !right.explains),
  ];
});

const missed = pots.filter(({ isReached }) => !isReached).length / POTS;
if (missed > 1 - reachProbability) throw new Error(`the promise is broken: ${missed}`);

const REACH_HEAD = ["group", "pots", "out of reach", "the same, full formula", "kept back, median"];
const FADE_HEAD = [
  "fresh colour",
  "group",
  "fugitive toners",
  "in the interval",
  "error",
  "toners that do not fade",
  "error",
];

writeSection(
  "hold-back",
  `## First pots and fade

${POTS.toLocaleString("en")} first pots for 300 g in the world of [whole jobs](#whole-jobs), for one to three panels that lost up to half of their most fugitive toner. At most ${(100 * (1 - reachProbability)).toFixed(0)} % may be out of reach by adding alone without passing 330 g.

${table(REACH_HEAD, reach.slice(-1))}

It keeps more than it promises, since two standard errors are kept for the drawing and paint is taken to be less sure than it is here. What is left of each toner, ${FADES.toLocaleString("en")} shops; 90 % intervals, error of ln(found/true):

${table(
  FADE_HEAD,
  fadeRows.filter(([, group]) => group === "all"),
)}

Which of two formulas it was, by how far the other one is off:

${table(["ΔE₀₀ of the variant", "shops", "right one ranked first", "wrong one refused", "right one refused (false alarm)"], variantRows)}

Without the right formula on hand, a near variant goes unnoticed.`,
  `# First pots and fade: by group

${table(REACH_HEAD, reach.slice(0, -1))}

${table(
  FADE_HEAD,
  fadeRows.filter(([, group]) => group !== "all"),
)}`,
);
