// Makes docs/search.md: the answers of `correct` against all mixes tried one by one, and jobs made by adding to the pot.
// Measured paints are used too where MASSTONE_OPEN_DATA names their folder (artist-paint-ks/{k,s}.csv and
// revigo/{mixtures,spectra}.csv). What it takes is in search-times.mjs, to be run when nothing else is.
// Run from the root: npm run build && node benchmarks/studies/search.mjs [jobs: 2000 unless given, some five minutes]
import { readFileSync, writeFileSync } from "node:fs";
import { readToners } from "masstone/formats";
import { table } from "./figures.mjs";
import { importSources } from "./importSources.mjs";

const [openData, bruteForce, randomJobs, addedJobs] = await importSources(
  "test/real-paint/openData.ts",
  "test/correction/lattice/bruteForce.ts",
  "test/correction/lattice/randomJobs.ts",
  "test/correction/lattice/addedJobs.ts",
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

What a correction takes is on [a page of its own](search-times.md).
`,
);
