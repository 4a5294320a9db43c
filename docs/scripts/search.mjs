// Makes docs/search.md and docs/search-growth.svg: the answers of `correct` against all mixes tried one by one, jobs
// made by adding to the pot, and how the time grows. Measured paints are used too where MASSTONE_OPEN_DATA names their
// folder (artist-paint-ks/{k,s}.csv and revigo/{mixtures,spectra}.csv).
// Run from the root: npm run build && node docs/scripts/search.mjs [jobs]
import { readFileSync, writeFileSync } from "node:fs";
import { readToners } from "masstone/formats";
import { quantile, table } from "./figures.mjs";
import { importSources } from "./importSources.mjs";
import { growthFigure, timings } from "./searchGrowth.mjs";

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

const compared = sets.map(({ name, toners }) => {
  const share = Math.ceil(jobs / sets.length);
  const all = Array.from({ length: share }, (_, i) =>
    bruteForce.compare(randomJobs.randomJob(toners, i + 1)),
  );
  const each = all.flat().filter((one) => one.best < Number.POSITIVE_INFINITY);
  const unequal = each.filter(({ ours, best }) => Math.abs(ours - best) > bruteForce.EQUAL);
  for (const one of unequal) console.warn(name, JSON.stringify(one));
  return { name, share, each, unequal };
});

const added = sets.flatMap(({ name, toners }) =>
  [0, 0.1].map((step) => {
    const share = Math.ceil(jobs / 4 / sets.length);
    const wrong = Array.from({ length: share }, (_, i) => addedJobs.isAnswered(toners, i + 1, step)).filter(
      (answered) => !answered,
    );
    return [name, step === 0 ? "any" : `whole steps of ${step} g`, share, wrong.length];
  }),
);

const times = timings();
writeFileSync("docs/search-growth.svg", growthFigure(times));

const worst = (unequal) => Math.max(0, ...unequal.map(({ ours, best }) => ours - best));
writeFileSync(
  "docs/search.md",
  `# The search, held against trying everything

Made by [scripts/search.mjs](scripts/search.mjs). It judges the search, not the model: cards and panels come from the model itself, with cans of other strength and noise.

## All mixes tried one by one

Seeded jobs of 3 to 12 toners, 1 to 3 pours, one or two lights and panels, least squares and minimax, some with short stock, a least pour or drops, on a scale coarse enough that all mixes (up to 60,000) can be scored in plain code of its own (\`test/correction/lattice/exhaustive.ts\`). For every number of pours the score of the best in \`byPours\` is compared with the least of all; equal means within ${bruteForce.EQUAL} ΔE₀₀. Jobs whose card is within tolerance already are counted as jobs and not compared.

${table(
  ["toners", "jobs", "compared", "equal", "worst excess, ΔE₀₀"],
  compared.map(({ name, share, each, unequal }) => [
    name,
    share,
    each.length,
    each.length - unequal.length,
    worst(unequal).toPrecision(2),
  ]),
)}

## Panels made by adding to the pot

Up to four toners added within stock and cup; the answer must be \`corrected\` or \`good-enough\`.

${table(["toners", "amounts added", "jobs", "called out of reach"], added)}

## Time

One correction, warm, built package, on the machine that made this page (the median of many calls, and the 99th centile; two shared cores, Node ${process.versions.node}). The common job: 15 toners × 31 bands × 1 geometry × 1 target × 2 lights, up to four pours.

${table(
  ["what", "median, ms", "99 %, ms"],
  times.table.map(({ name, milliseconds }) => [
    name,
    quantile(milliseconds, 0.5).toFixed(1),
    quantile(milliseconds, 0.99).toFixed(1),
  ]),
)}

![Time of one correction against the number of toners, bands, geometries and targets](search-growth.svg)
`,
);
