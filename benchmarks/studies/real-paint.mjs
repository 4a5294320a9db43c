// Makes docs/real-paint.md: measured films of real paint as targets for `correct`. The jobs are those of
// test/real-paint; the answers come from the built package. The data are no part of the package: name their folder in
// MASSTONE_OPEN_DATA (artist-paint-ks/{k,s}.csv and revigo/{mixtures,spectra}.csv).
// Run from the root: npm run build && node benchmarks/studies/real-paint.mjs
import { writeFileSync } from "node:fs";
import { correct, LIMITS_DEFAULTS } from "masstone";
import { spread, table } from "./figures.mjs";
import { importSources } from "./importSources.mjs";

const [openData, targets, runs] = await importSources(
  "test/real-paint/openData.ts",
  "test/real-paint/targets.ts",
  "test/real-paint/runs.ts",
);
const folder = process.env[openData.FOLDER_VARIABLE];
const missing = openData.whatIsMissing(folder);
if (missing) {
  console.error(`docs/real-paint.md is left as it is: ${missing}`);
  process.exit(1);
}
const data = openData.readOpenData(folder);

const fixed = (value) => value.toFixed(2);

const HINDRANCES = {
  "too-much-in-pot": ({ toner, grams }) => `${grams.toFixed(1)} g too much ${toner}`,
  stock: ({ toner }) => `stock of ${toner}`,
  room: () => "room in the cup",
  pours: () => "number of pours",
  "scale-step": () => "scale step",
  toners: () => "no mix of these toners",
};

const row = ({ target, correction, really }) => {
  const [{ deltaE00After }] = correction.predictions;
  const pours = correction.additions.map(({ toner, grams }) => `${toner} ${grams}`);
  const hindrances = correction.obstacles.map((obstacle) => HINDRANCES[obstacle.kind](obstacle));
  return [
    target.sample,
    target.paint,
    fixed(really.before),
    fixed(deltaE00After),
    fixed(really.after),
    correction.status,
    pours.join(", "),
    hindrances.join("; "),
  ];
};

const HEAD = [
  "film",
  "what it is (mass %)",
  "before",
  "after, predicted",
  "after, with the cans as they are",
  "status",
  "pours (g)",
  "in the way",
];

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

const { OPAQUE } = targets;
const { WORLD } = runs;
const usable = data.films.filter((film) => !targets.isFluorescent(film));
const [grey] = all[0].list;
const greyPot = Object.entries(grey.job.pot)
  .map(([id, grams]) => `${id} ${grams} g`)
  .join(", ");

const page = `# Real paint

Measured spectra of real paint as targets, K and S of other real paints as toners. Made by \`benchmarks/studies/real-paint.mjs\`; the same jobs are tests in \`test/real-paint\`.

## What was done

**Targets.** Reflectances of hand-made oil paints, measured over black and over white (Geldof et al. 2018): ${data.films.length} samples with both readings. ${data.films.length - usable.length} of them are eosin lakes (series 01–03), a fluorescent dye, and are left out. A film counts as opaque when

> ΔE₀₀(over black, over white; D65, 10°) ≤ ${OPAQUE.deltaE00} and |R<sub>over white</sub>(λ) − R<sub>over black</sub>(λ)| ≤ ${OPAQUE.reflectance} at every band.

${all[0].list.length} of the remaining ${usable.length} do. The reading over white is the target.

**Toners.** Ten artists' acrylics by their fitted K and S (Berns 2016), k₁ = 0.03, k₂ = 0.65, read as d:8 specular excluded. None of them is the paint of a target, and oil is not acrylic: a match is a match of spectra, with whatever these ten can do.

**Pots.** Two wrong ones for each target. *Grey ochre*: ${greyPot}, whatever the target. *Neighbour*: 100 g of the formula for the target next to it in ΔE₀₀ (at D65), which is what \`correct\` makes of a speck of white. Limits are the defaults: ${LIMITS_DEFAULTS.maxPours} pours, a scale of ${LIMITS_DEFAULTS.scaleStepGrams} g, a cup of ${LIMITS_DEFAULTS.timesThePot} times the pot. Viewing: 10° observer, D65, and A at weight 0.3. Tolerance 0.5 ΔE₀₀ at D65.

**Cards.** Nobody sprayed a card from these toners. Each card is the model's own reflectance of the pot, with every can stronger or weaker than said by up to ${100 * WORLD.strengthSpread} % (uniform, seeded) and noise of ${WORLD.noiseSd} (standard deviation of R) on the reading. *Cans as they are* is the mix after the pours, reckoned with those strengths.

## What came out

ΔE₀₀ at D65 of the corrected ones, after **one** correction:

${summary}

Out of reach from either pot: ${outFromBoth.map(({ sample, paint }) => `${sample} (${paint})`).join(", ")}.

In the tables below, *before* is with the cans as they are, and D65 alone is shown; the status looks at illuminant A too.

${all.map(({ start, list }) => `### From the pot “${start}”\n\n${table(HEAD, list.map(row))}`).join("\n\n")}

## What it shows, and what not

- It shows **reach**: which measured colours one correction gets to within tolerance from a wrong pot, by adding only. Where it does not, the answer says so and names what is in the way.
- It shows **robustness**: the targets are spectra that nobody drew, with the noise, the rounding and the odd shapes of measurement; every status follows from its figures, every predicted figure is found again by the formulas written a second time, and no answer is worse than doing nothing.
- *With the cans as they are* is what strengths up to ${100 * WORLD.strengthSpread} % off leave after one card, in a world that obeys the same equations. Toners that were not in the pot cannot show their strength on the card: the farther the way, the more is left for the next card.
- It does **not** show the least paint that would do. Paint counts only where the closest match would add more than half the pot again: then a mix with less than half as much is taken, if it matches within 0.3 ΔE₀₀ as well.
- It does **not** show how true Kubelka–Munk is to paint: card and result come from the model itself. [belief.md](belief.md) judges a step in a world of different physics.
- The files do not say how the light was read; the lowest readings (2 %) lie below the surface reflection of a gloss film, so specular is at least partly excluded, and we take it as excluded. Whether the surface of these films is that of k₁ and k₂ is not known.

## Data

- M. Geldof, A. N. Proaño Gaibor, F. Ligterink, E. Hendriks, E. Kirchner, *Reconstructing Van Gogh's palette to determine the optical characteristics of his paints*, Heritage Science 6:17 (2018), doi [10.1186/s40494-018-0181-6](https://doi.org/10.1186/s40494-018-0181-6). Data CC0. Percentages are taken as by mass; film thickness is not recorded.
- R. S. Berns, *Artist Paint Spectral Database*, Rochester Institute of Technology (2016), K and S as carried by an open-source colour library under the MIT licence. The database's own terms of redistribution were not found: the spectra are not in this repository.
`;

writeFileSync(new URL("../../docs/real-paint.md", import.meta.url), page);
