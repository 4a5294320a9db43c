// Makes "real-paint" in docs/evidence.md: measured films of real paint as targets for `correct`. The jobs are those of
// test/real-paint; the answers come from the built package. The data are no part of the package: name their folder in
// MASSTONE_OPEN_DATA (artist-paint-ks/{k,s}.csv and revigo/{mixtures,spectra}.csv).
// Run from the root: npm run build && node benchmarks/studies/real-paint.mjs
import { correct } from "masstone";
import { spread, table } from "./figures.mjs";
import { importSources } from "./importSources.mjs";
import { writeSection } from "./writeSection.mjs";

const [openData, runs] = await importSources("test/real-paint/openData.ts", "test/real-paint/runs.ts");
const folder = process.env[openData.FOLDER_VARIABLE];
const missing = openData.whatIsMissing(folder);
if (missing) {
  console.error(`the section "real-paint" of docs/evidence.md is left as it is: ${missing}`);
  process.exit(1);
}
const data = openData.readOpenData(folder);

const all = runs.STARTS.map((start) => ({ start, list: runs.runAll(data, correct, start) }));

const isCorrected = ({ correction }) => correction.status === "corrected";
const total = (grams) => Object.values(grams).reduce((sum, g) => sum + g, 0);

const summary = table(
  [
    "start",
    "targets",
    "corrected",
    "predicted: median, 90 %, largest",
    "cans as they are: median, 90 %, largest",
    "poured, g: median, 90 %, largest",
  ],
  all.map(({ start, list }) => {
    const reached = list.filter(isCorrected);
    return [
      start,
      list.length,
      reached.length,
      spread(reached.map(({ correction }) => correction.predictions[0].deltaE00After)),
      spread(reached.map(({ really }) => really.after)),
      spread(
        reached.map(({ job, correction }) => correction.potGramsAfter - total(job.pot)),
        0,
      ),
    ];
  }),
);

const outFrom = all.map(({ list }) => list.filter((run) => !isCorrected(run)).map(({ target }) => target));
const outFromBoth = outFrom[0].filter((target) => outFrom[1].includes(target));

const { WORLD } = runs;

writeSection(
  "real-paint",
  `## Targets of real paint

${all[0].list.length} measured hiding oil paints (Geldof et al. 2018; fluorescent ones left out) as targets, ten acrylics by their fitted K and S (Berns 2016) as toners, from two wrong pots: a grey ochre, and the formula of the nearest other target. Cards are the model's own, with cans up to ${100 * WORLD.strengthSpread} % off and noise of ${WORLD.noiseSd}. ΔE₀₀ under D65 of the corrected ones after one correction:

${summary}

Out of reach from either pot: ${outFromBoth.length}, and the answer says so. It shows reach and robustness, not how true Kubelka–Munk is to paint.`,
);
