// Makes "search" in docs/evidence.md: the answers of `correct` against all mixes tried one by one, and jobs made by adding to the pot.
// Measured paints are used too where MASSTONE_OPEN_DATA names their folder (artist-paint-ks/{k,s}.csv and
// revigo/{mixtures,spectra}.csv). What it takes is in search-times.mjs, to be run when nothing else is.
// Run from the root: npm run build && node benchmarks/studies/search.mjs [jobs: 2000 unless given, some ten minutes]
import { readFileSync } from "node:fs";
import { readToners } from "masstone/formats";
import { table } from "./figures.mjs";
import { importSources } from "./importSources.mjs";
import { writeSection } from "./writeSection.mjs";

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
    return [kind, name, RELAXED_SHARE, worse.length];
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

/** Jobs that went wrong: the fourth column. */
const sum = (rows) => rows.reduce((total, row) => total + row[3], 0);
const worstOf = (unequal) =>
  unequal.length === 0 ? "–" : Math.max(...unequal.map(({ worst }) => worst)).toPrecision(2);

writeSection(
  "search",
  `## The search against trying everything

${share * sets.length} seeded jobs of each kind whose mixes can all be tried one by one in plain code (\`test/correction/lattice\`): 3 to 12 toners, 1 to 4 pours, several lights and panels, short stock, drops. *Equal*: within ${bruteForce.EQUAL} ΔE₀₀ for every number of pours (1e-4 where nothing is rounded). The answer states a gap for what it may have missed.

${table(
  ["toners", "compared", "unequal", "of these within the stated gap", "worst excess, ΔE₀₀"],
  compared.map(({ name, answered, unequal }) => [
    name,
    answered,
    unequal.length,
    unequal.filter(({ isSaid }) => isSaid).length,
    worstOf(unequal),
  ]),
)}

The same job with one pour more, more stock, a larger cup or half the step was worse, by more than its gap, in ${sum(relaxed)} of ${RELAXED_SHARE * relaxed.length}. Panels made by adding to the pot were not answered with a match in ${sum(added)} of ${SMALL_SHARE * added.length}.`,
);
