// Makes docs/search.md: the answers of `correct` against all mixes tried one by one, and jobs made by adding to the pot.
// Measured paints are used too where MASSTONE_OPEN_DATA names their folder (artist-paint-ks/{k,s}.csv and
// revigo/{mixtures,spectra}.csv). What it takes is in search-times.mjs, to be run when nothing else is.
// Run from the root: npm run build && node benchmarks/studies/search.mjs [jobs: 2000 unless given, some ten minutes]
import { readFileSync, writeFileSync } from "node:fs";
import { readToners } from "masstone/formats";
import { table } from "./figures.mjs";
import { importSources } from "./importSources.mjs";

const [openData, bruteForce, randomJobs, addedJobs, unroundedJobs, relaxedJobs] = await importSources(
  "test/real-paint/openData.ts",
  "test/correction/lattice/bruteForce.ts",
  "test/correction/lattice/randomJobs.ts",
  "test/correction/lattice/addedJobs.ts",
  "test/correction/lattice/unroundedJobs.ts",
  "test/correction/lattice/relaxedJobs.ts",
);
const jobs = Number(process.argv[2] ?? 2000);
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
/** What the cup takes at most in the vast ones, in pots. */
const VAST = 4;
const KINDS = [
  {
    kind: "whole steps, up to half the pot again",
    compare: (toners, seed) => bruteForce.compare(randomJobs.randomJob(toners, seed)),
  },
  {
    kind: `whole steps, up to ${VAST} pots more`,
    compare: (toners, seed) => bruteForce.compare(randomJobs.randomJob(toners, seed, VAST)),
  },
  {
    kind: "nothing rounded",
    // Where two refinements end differs by a hair.
    equal: 1e-4,
    compare: (toners, seed) => unroundedJobs.compareUnrounded(unroundedJobs.unroundedJob(toners, seed), seed),
  },
];
const pairs = sets.flatMap(({ name, toners }) => KINDS.map((kind) => ({ name, toners, ...kind })));
const compared = pairs.map(({ name: set, toners, kind, compare, equal = bruteForce.EQUAL }) => {
  const name = `${set}, ${kind}`;
  const all = Array.from({ length: share }, (_, i) => ({
    seed: i + 1,
    each: compare(toners, i + 1),
  })).filter(({ each }) => each.length > 0);
  const unequal = all
    .map(({ seed, each }) => ({
      seed,
      worst: Math.max(...each.map(excess)),
      isSaid: each.every((one) => excess(one) <= Math.max(equal, one.gap)),
    }))
    .filter(({ worst }) => worst > equal);
  return { name, answered: all.length, unequal };
});

/** Jobs of which some limit is relaxed, and what may be lost by it. */
const RELAXED_SHARE = Math.ceil(share / 4);
const relaxed = [
  ["whole steps", randomJobs.randomJob],
  [`whole steps, up to ${VAST} pots more`, (toners, seed) => randomJobs.randomJob(toners, seed, VAST)],
  ["nothing rounded", unroundedJobs.unroundedJob],
].flatMap(([kind, jobOf]) =>
  Object.entries(relaxedJobs.RELAXED).map(([name, relax]) => {
    const losses = Array.from({ length: RELAXED_SHARE }, (_, i) =>
      relaxedJobs.lossByRelaxing(jobOf(invented, i + 1), relax),
    );
    const worse = losses.filter((loss) => loss > 0);
    return [
      kind,
      name,
      RELAXED_SHARE,
      worse.length,
      worse.length > 0 ? Math.max(...worse).toPrecision(2) : "–",
    ];
  }),
);

const SMALL_SHARE = Math.ceil(share / 8);
const added = sets.flatMap(({ name, toners }) =>
  [0, 0.1].map((step) => {
    const wrong = Array.from({ length: SMALL_SHARE }, (_, i) => i + 1).filter(
      (seed) => !addedJobs.isAnswered(toners, seed, step),
    );
    return [name, step === 0 ? "any" : `whole steps of ${step} g`, SMALL_SHARE, wrong.length];
  }),
);

const worstOf = (unequal) =>
  unequal.length === 0 ? "–" : Math.max(...unequal.map(({ worst }) => worst)).toPrecision(2);
const seeds = compared
  .filter(({ unequal }) => unequal.length > 0)
  .map(({ name, unequal }) => `${name} ${unequal.map(({ seed }) => seed).join(", ")}`)
  .join("; ");

writeFileSync(
  "docs/search.md",
  `# The search, held against trying everything

Made by [benchmarks/studies/search.mjs](../benchmarks/studies/search.mjs). It judges the search, not the model: cards and panels come from the model itself, with cans of other strength and noise.

## All mixes tried one by one

${share * sets.length} seeded jobs of each kind. In whole steps: of 3 to 12 toners, 1 to 3 pours, one or two lights and panels, least squares and minimax, some with short stock, a least pour or drops, on a scale coarse enough that all mixes (up to 60,000) can be scored in plain code of its own (\`test/correction/lattice/exhaustive.ts\`). For every number of pours the score of the best in \`byPours\` is compared with the least of all; a job is equal where all are, within ${bruteForce.EQUAL} ΔE₀₀ (1e-4 where nothing is rounded). Jobs whose card is within tolerance already are answered with nothing to pour, and not compared.

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

${seeds ? `Unequal by seed: ${seeds}.` : "None is unequal."} The answer states a gap (\`search.gapDeltaE00\`): what a limit on the work cut off, and what linear models and two starts for each set may leave. Of what nothing rounds (3 to 7 toners, 1 to 4 pours, panels near, far and out of reach, cups of a tenth to twenty times the pot again) the best is what five starts in every set of toners come to; a hair of difference is where a refinement ends.

## More allowed, never worse

The same job with one pour more, 1.7 times the stock, a cup 1.4 times as large, half the step: whether it matches, then the sum that the answer was chosen by, against the job as it was. Worse counts by more than the gap that the answer states and the 0.01 ΔE₀₀ that a tie may cost.

${table(["amounts", "relaxed by", "jobs", "worse", "most, ΔE₀₀"], relaxed)}

## Panels made by adding to the pot

Up to four toners added within stock and cup; the answer must be \`corrected\` or \`good-enough\`.

${table(["toners", "amounts added", "jobs", "not answered with a match"], added)}

What a correction takes is on [a page of its own](search-times.md).
`,
);
