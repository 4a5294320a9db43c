// Makes docs/search.md and docs/search-growth.svg: the answers of `correct` against all mixes tried one by one, jobs
// made by adding to the pot, and how the time grows. Measured paints are used too where MASSTONE_OPEN_DATA names their
// folder (artist-paint-ks/{k,s}.csv and revigo/{mixtures,spectra}.csv).
// Run from the root: npm run build && node docs/scripts/search.mjs [jobs]
import { readFileSync, writeFileSync } from "node:fs";
import { readToners } from "masstone/formats";
import { quantile, table } from "./figures.mjs";
import { importSources } from "./importSources.mjs";
import { growthFigure, ROUNDS, SEEDED_JOBS, timings } from "./searchGrowth.mjs";

const [openData, bruteForce, randomJobs, addedJobs] = await importSources(
  "test/real-paint/openData.ts",
  "test/correction/lattice/bruteForce.ts",
  "test/correction/lattice/randomJobs.ts",
  "test/correction/lattice/addedJobs.ts",
);
const jobs = Number(process.argv[2] ?? 1000);
const folder = process.env[openData.FOLDER_VARIABLE];
const missing = openData.whatIsMissing(folder);
if (missing) console.warn(`without measured paints: ${missing}`);
const invented = readToners(readFileSync("examples/horsebox/toners.json", "utf8"));
const sets = [
  { name: "invented toners", toners: invented },
  ...(missing ? [] : [{ name: "measured paints", toners: openData.readOpenData(folder).toners }]),
];
const share = Math.ceil(jobs / sets.length);

const excess = ({ ours, best }) => ours - best;
const compared = sets.map(({ name, toners }) => {
  const all = Array.from({ length: share }, (_, i) => ({
    seed: i + 1,
    each: bruteForce.compare(randomJobs.randomJob(toners, i + 1)),
  })).filter(({ each }) => each.length > 0);
  const unequal = all
    .map(({ seed, each }) => ({
      seed,
      worst: Math.max(...each.map(excess)),
      isSaid: each.every((one) => excess(one) <= Math.max(bruteForce.EQUAL, one.gap)),
    }))
    .filter(({ worst }) => worst > bruteForce.EQUAL);
  return { name, answered: all.length, unequal };
});

const SMALL_SHARE = Math.ceil(share / 8);
const added = sets.flatMap(({ name, toners }) =>
  [0, 0.1].map((step) => {
    const wrong = Array.from({ length: SMALL_SHARE }, (_, i) => i + 1).filter(
      (seed) => !addedJobs.isAnswered(toners, seed, step),
    );
    return [name, step === 0 ? "any" : `whole steps of ${step} g`, SMALL_SHARE, wrong.length];
  }),
);

const times = timings();
writeFileSync("docs/search-growth.svg", growthFigure(times));

const worstOf = (unequal) =>
  unequal.length === 0 ? "–" : Math.max(...unequal.map(({ worst }) => worst)).toPrecision(2);
const seeds = compared
  .filter(({ unequal }) => unequal.length > 0)
  .map(({ name, unequal }) => `${name} ${unequal.map(({ seed }) => seed).join(", ")}`)
  .join("; ");

const judged = (value, goal) =>
  goal === undefined
    ? value.toFixed(1)
    : `${value.toFixed(1)} (≤ ${goal}: ${value <= goal ? "met" : "**missed**"})`;
const timeRows = (rows) =>
  rows.map(({ name, goal = {}, milliseconds }) => [
    name,
    judged(quantile(milliseconds, 0.5), goal.median),
    judged(quantile(milliseconds, 0.99), goal.p99),
  ]);

writeFileSync(
  "docs/search.md",
  `# The search, held against trying everything

Made by [scripts/search.mjs](scripts/search.mjs). It judges the search, not the model: cards and panels come from the model itself, with cans of other strength and noise.

## All mixes tried one by one

${share * sets.length} seeded jobs of 3 to 12 toners, 1 to 3 pours, one or two lights and panels, least squares and minimax, some with short stock, a least pour or drops, in a cup that takes up to half the pot again, on a scale coarse enough that all mixes (up to 60,000) can be scored in plain code of its own (\`test/correction/lattice/exhaustive.ts\`). For every number of pours the score of the best in \`byPours\` is compared with the least of all; a job is equal where all are, within ${bruteForce.EQUAL} ΔE₀₀. Jobs whose card is within tolerance already are answered with nothing to pour, and not compared.

${table(
  [
    "toners",
    "jobs",
    "compared",
    "equal",
    "unequal",
    "of these within the gap that the answer states",
    "worst excess, ΔE₀₀",
  ],
  compared.map(({ name, answered, unequal }) => [
    name,
    share,
    answered,
    answered - unequal.length,
    unequal.length,
    unequal.filter(({ isSaid }) => isSaid).length,
    worstOf(unequal),
  ]),
)}

${seeds ? `Unequal by seed: ${seeds}.` : "None is unequal."} The answer states a gap (\`search.gapDeltaE00\`) where a limit on the work cut the search off. Where it is unequal without saying so, a linear model was trusted too far.

## Panels made by adding to the pot

Up to four toners added within stock and cup; the answer must be \`corrected\` or \`good-enough\`.

${table(["toners", "amounts added", "jobs", "not answered with a match"], added)}

## Time

Milliseconds of one \`correct\`, warm, built package, Node ${process.versions.node}, two cores shared with other work. All take turns in ${ROUNDS} rounds; what is shown is the round with the least median of each. 15 toners × 31 bands × 1 geometry × 1 target × 2 lights, up to four pours; alternatives, reasons and certificate only where said. Beside a goal stands whether it was met.

${table(["one job", "median", "99 %"], timeRows(times.table))}

How it differs from job to job: ${SEEDED_JOBS} seeded jobs of the same size (\`seededJob\` in \`benchmarks/inventedPaint.mjs\`), each the least of three calls.

${table(["many jobs", "median", "99 %"], timeRows(times.jobs))}

![Time of one correction against the number of toners, bands, geometries and targets](search-growth.svg)

The curves belong to another job than the first table's (\`growthJob\`): grown from 15 toners × 31 bands × 1 geometry × 1 target in one direction at a time, the least of ${ROUNDS} medians of three calls.
`,
);
