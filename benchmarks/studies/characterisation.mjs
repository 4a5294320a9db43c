// Makes docs/characterisation.md: toners from the ladders of real oil paint of Geldof et al. 2018, judged on films
// that were left out. Needs the data: MASSTONE_OPEN_DATA names a folder with revigo/ in it.
// Run from the root: node benchmarks/studies/characterisation.mjs
import { writeFileSync } from "node:fs";
import { quantile, spread, table } from "./figures.mjs";
import { importSources } from "./importSources.mjs";

const [ladders, fitting, correcting, anchoring, evaluating, modelling] = await importSources(
  "test/characterisation/paintLadders.ts",
  "src/characterisation/characterise.ts",
  "src/correction/correct.ts",
  "src/prediction/anchor.ts",
  "src/prediction/evaluate.ts",
  "src/prediction/forwardModel.ts",
);
const { GEOMETRY, LEVELS, OPTIONS, SURFACE, jobFrom, predictFilm, colourDifference } = ladders;
const { characterise } = fitting;

/** What a plain fit assumes: films of one thickness, surface constants as usual, nothing else unknown. */
const PLAIN_SURFACE = { geometry: GEOMETRY, k1: 0.03, k2: 0.65 };
const PLAIN = {
  reflectanceSd: { floor: 0.01, relative: 0 },
  thicknessSd: 1e-3,
  smoothness: { k: 0, s: 0 },
};

const folder = process.env.MASSTONE_OPEN_DATA;
const missing = ladders.whatIsMissing(folder);
if (missing) throw new Error(missing);
const samples = ladders.readLadders(folder);

const WAYS = {
  plain: (from) => characterise(jobFrom(from, PLAIN_SURFACE, PLAIN)),
  full: (from) => characterise(jobFrom(from, SURFACE, OPTIONS)),
};
const three = (values) => spread(values);
const fitted = Object.fromEntries(
  Object.entries(WAYS).map(([name, characteriseFrom]) => [name, characteriseFrom(samples)]),
);

const fittedRows = Object.entries(fitted).map(([name, { samples: found }]) => {
  const over = (backing) =>
    found.flatMap(({ readings }) => readings.filter((r) => r.backing === backing).map((r) => r.deltaE00));
  return [name, three(over("black")), three(over("white"))];
});

const levelRows = Object.entries(LEVELS).flatMap(([level, isLeftOut]) => {
  const out = samples.filter(({ name }) => isLeftOut(name));
  const kept = samples.filter(({ name }) => !isLeftOut(name));
  return Object.entries(WAYS).flatMap(([name, characteriseFrom]) => {
    const found = characteriseFrom(kept);
    return ["mean", "from the reading over black"].map((thickness) => {
      const predicted = out.map((sample) => predictFilm(found, sample, thickness));
      const black = thickness === "mean" ? three(predicted.map(({ overBlack }) => overBlack)) : "(fitted)";
      return [
        `${level} (${out.length})`,
        name,
        thickness,
        black,
        three(predicted.map(({ overWhite }) => overWhite)),
      ];
    });
  });
});

const single = characterise(jobFrom(samples, SURFACE, { ...OPTIONS, leaveOneOut: "each sample" }));
const mainToner = ({ recipe }) => {
  const coloured = Object.keys(recipe).filter((id) => !/White|BoneBlack/.test(id));
  return coloured[0] ?? Object.keys(recipe)[0];
};
const pigments = [...new Set(samples.map(mainToner))];
const pigmentRows = pigments.map((pigment) => {
  const own = single.samples.filter((_, i) => mainToner(samples[i]) === pigment);
  const values = (key, backing) =>
    own.flatMap(({ readings }) =>
      readings.filter((r) => r.backing === backing && r[key] !== undefined).map((r) => r[key]),
    );
  const left = values("deltaE00LeftOut", "white");
  return [
    pigment,
    String(own.length),
    three(values("deltaE00", "black")),
    three(values("deltaE00", "white")),
    left.length > 0 ? three(left) : "–",
  ];
});
const allLeft = single.samples.flatMap(({ readings }) =>
  readings
    .filter((r) => r.backing === "white" && r.deltaE00LeftOut !== undefined)
    .map((r) => r.deltaE00LeftOut),
);

// Stiffer or softer spectra, with densities free or not: which of them predict best what was left out.
const settings = [
  [0.3, 3, 0],
  [0.3, 3, 0.5],
  [0.3, 10, 0.5],
  [1, 10, 0],
  [1, 10, 0.5],
  [3, 30, 0.5],
];
const stiffnessRows = settings.map(([k, s, densitySd]) => {
  const fitFrom = (from, leaveOneOut) =>
    characterise(jobFrom(from, SURFACE, { ...OPTIONS, smoothness: { k, s }, densitySd, leaveOneOut }));
  const all = fitFrom(samples, "each sample");
  const leftOut = all.samples.flatMap(({ readings }) =>
    readings
      .filter((r) => r.backing === "white" && r.deltaE00LeftOut !== undefined)
      .map((r) => r.deltaE00LeftOut),
  );
  const levels = Object.values(LEVELS).map((isLeftOut) => {
    const found = fitFrom(
      samples.filter(({ name }) => !isLeftOut(name)),
      "none",
    );
    const out = samples.filter(({ name }) => isLeftOut(name));
    return three(out.map((sample) => predictFilm(found, sample, "from the reading over black").overWhite));
  });
  const densities = densitySd === 0 ? "alike" : "free";
  return [String(k), String(s), densities, three(leftOut), ...levels, all.toners.misfit.toFixed(2)];
});

// Corrections inside a ladder: nearly opaque films of the same two toners.
const HIDES = 1;
const difference = colourDifference(single.toners ? single : fitted.full);
const contrast = ({ readings: [black, white] }) => difference(black.reflectance, white.reflectance);
const opaque = samples.filter((sample) => contrast(sample) <= HIDES);
const share = ({ recipe }, id) =>
  (recipe[id] ?? 0) / Object.values(recipe).reduce((sum, mass) => sum + mass, 0);
const pairs = opaque.flatMap((target) => {
  const ids = Object.keys(target.recipe);
  if (ids.length !== 2) return [];
  return opaque.flatMap((card) => {
    if (card === target || !Object.keys(card.recipe).every((id) => ids.includes(id))) return [];
    const [needed, other] = share(target, ids[0]) > share(card, ids[0]) ? ids : [ids[1], ids[0]];
    // The other toner cannot be taken out: it sets how much of the needed one there must be.
    if (share(card, other) === 0) return [];
    const grams =
      (100 * share(card, other) * share(target, needed)) / share(target, other) - 100 * share(card, needed);
    return grams > 0.2 && grams <= 400 ? [{ card, target, needed, grams }] : [];
  });
});

const reading = ({ readings }) => {
  const { geometry, grid, reflectance } = readings[1];
  return { geometry, grid, reflectance };
};
const VIEWING = { observer: "1964-10", illuminants: [{ name: "D65" }] };
const cache = new Map();
const withoutTarget = (target) => {
  if (!cache.has(target)) cache.set(target, WAYS.full(samples.filter((sample) => sample !== target)));
  return cache.get(target);
};
const steps = pairs.map(({ card, target, needed, grams }) => {
  const { toners: set } = withoutTarget(target);
  const offered = new Set([...Object.keys(target.recipe), "ZincWhite", "BoneBlack"]);
  const toners = { ...set, uncertainty: undefined, toners: set.toners.filter(({ id }) => offered.has(id)) };
  const pot = Object.fromEntries(
    Object.keys(card.recipe).map((id) => [id, Number((100 * share(card, id)).toFixed(2))]),
  );
  const job = {
    toners,
    viewing: VIEWING,
    pot,
    card: { readings: [reading(card)] },
    targets: [{ name: target.name, readings: [reading(target)] }],
    limits: { potMaxGrams: 1000, scaleStepGrams: 0.01 },
  };
  const { additions, status } = correcting.correct(job);
  const found = additions.find(({ toner }) => toner === needed)?.grams ?? 0;
  const others = additions
    .filter(({ toner }) => toner !== needed)
    .map(({ toner, grams: g }) => `${toner} ${g.toFixed(1)}`);

  const model = modelling.createForwardModel(toners, VIEWING, [GEOMETRY]);
  const inOrder = (grams) => Float64Array.from(toners.toners, ({ id }) => grams[id] ?? 0);
  const tied = anchoring.anchorToCard(model, inOrder(pot), Float64Array.from(reading(card).reflectance));
  const at = (m) => {
    const into = evaluating.createEvaluation(m);
    evaluating.evaluate(m, inOrder({ ...pot, [needed]: (pot[needed] ?? 0) + grams }), into);
    return difference(into.reflectance, reading(target).reflectance);
  };
  return {
    card: card.name,
    target: target.name,
    needed,
    grams,
    found,
    others: others.join(", ") || "–",
    status,
    before: difference(reading(card).reflectance, reading(target).reflectance),
    tied: at(tied),
    untied: at(model),
  };
});
const stepRows = steps.map((s) => [
  `${s.card} → ${s.target}`,
  s.needed,
  s.grams.toFixed(1),
  s.found.toFixed(1),
  s.others,
  s.status,
  s.before.toFixed(1),
  s.untied.toFixed(2),
  s.tied.toFixed(2),
]);
const logError = steps.map(({ found, grams }) => Math.abs(Math.log(Math.max(found, 0.01) / grams)));
const median = (values) => quantile(values, 0.5);
const percent = (logs) => `${(100 * (Math.exp(median(logs)) - 1)).toFixed(0)} %`;
const isCorrected = steps.map(({ status }) => status === "corrected");

const { densities, surfaceEstimates, noiseScale } = fitted.full;
const densityText = Object.entries(densities)
  .sort(([, a], [, b]) => b.value - a.value)
  .map(([id, { value, sdOfLog }]) => `${id} ${value.toFixed(2)} ± ${(value * sdOfLog).toFixed(2)}`)
  .join(", ");
const outliers = single.samples.filter(({ outlier }) => outlier).map(({ name }) => name);

const page = `# Toners from ladders of real paint

What \`characterise\` makes of measured paint, and how well films are predicted that it did not see. Made by \`benchmarks/studies/characterisation.mjs\` from the measurements of hand-made oil paints of Geldof et al. 2018 ([references](references.md)); the data are not part of the package.

## What was done

${samples.length} films over black and over white, of ${single.quality.length} paints, 400–700 nm by 10; series 01–03 are left out, since they fluoresce. Recipes are taken as per cent by mass. Not known: how thick the films are, how evenly they were drawn, how gloss was kept out of the readings, how exactly was weighed beyond the printed 0.1 %.

- *plain*: two constants per paint and band, films of one thickness, k₁ = 0.03, k₂ = 0.65 and no specular rest, nothing else unknown.
- *full*: besides, an unknown thickness for every film (sd ${OPTIONS.thicknessSd} of its logarithm), an unknown density for every paint against zinc white (sd ${OPTIONS.densitySd}), weighing errors (${OPTIONS.weighingSd.absolute} % and ${100 * OPTIONS.weighingSd.relative} % of the mass), k₂ and the specular rest fitted, S smooth along the spectrum.

All differences are CIEDE2000 under D65 for the 10° observer: median, 90 %, largest.

## On what was fitted

${table(["fit", "over black", "over white"], fittedRows)}

Fitted along: ${surfaceEstimates.map(({ what, value, sd, identifiable }) => `${what} = ${value.toFixed(3)} ± ${sd.toFixed(3)}${identifiable ? "" : " (not told by the readings)"}`).join(", ")}; residuals are ${noiseScale.toFixed(2)} times the stated sd of √(${OPTIONS.reflectanceSd.floor}² + (${OPTIONS.reflectanceSd.relative}·R)²). Densities against zinc white, from nothing but colour: ${densityText}. The order of the heavy ones (lead, mercury and chromium pigments above, lakes, chalk and black below) is that of the pigments; there is no measurement to hold the values against, and that of bone black is too low to be a density: what its strength does from series to series goes into it.${outliers.length > 0 ? ` Named as outliers, and used all the same: ${outliers.join(", ")}.` : ""}

## Whole levels left out

All films of a level are left out at once; their own thickness is then not known. *Mean*: predicted as thick as the mean film. *From the reading over black*: the thickness that fits that reading best (and is not far from the mean), judged over white.

${table(["left out", "fit", "thickness", "over black", "over white"], levelRows)}

A straightforward two-constant fit made apart from this package (equal thickness, k₁ = 0.03, k₂ = 0.65, each group left out) was reported to reach a median of 1.53 on the 50 % tints, 3.45 on black in colour and 1.6–1.8 on what it fitted. The *plain* fit here follows the same description and comes near the second and third figure, not the first (its vague priors on K and S weigh on the tints; without them it reached 3.3): how 1.53 came about could not be traced. A third fit of the same description, made apart from this package with SciPy on this copy of the data (per band, least squares in ln K and ln S, no priors), gave 1.58 on what it fitted, 3.50 on the tints, 3.78 on black in colour (19 films) and 1.28 on the tints when it was shown them; part of the published samples is not in this copy, which may be the difference. The full fit is about twice as close as the plain one on what it saw, and closer on both levels that it did not see, but 1.2 on the tints and 2.5 on black in colour, which were aimed at, are missed.

What limits it: of most paints there are only a masstone, one tint and two steps with black. Without the tint, how strong a paint is against white hangs on the two films with a little black alone, and the black is not the same in all of them: 10 % of it darken one chrome yellow (14E) to L\\* 50 and the other (15E) only to 62, and the 1 % in 12D acts like 3 %. Neither freeing thickness, weighing, density and surface, nor weighting films by how well they fit, nor stiffer or softer priors moved the medians of the left-out levels below 2.2 (tints) and 2.3 (black in colour); what helped one hurt the other. Some of these settings were looked at before the ones above were kept, so the figures are not free of choice.

## By paint, and one film left out at a time

Fitted over black and over white; and over white with that film left out, its thickness from the reading over black. All films: ${three(allLeft)}.

${table(["paint", "films", "fitted, black", "fitted, white", "left out, white"], pigmentRows)}

## Stiffer spectra, free densities

The same fit with ln K and ln S of other stiffness (\`smoothness\`, 1 ÷ the sd of a step over 10 nm), and with densities alike or free (sd 0.5); ΔE₀₀ over white, thickness from the reading over black. The first row has the defaults of \`characterise\`. *Misfit* is that of the line over all left-out films that hide ([decisions](decisions.md#when-a-paint-line-is-badly-behaved)).

${table(["K", "S", "densities", "one film left out", ...Object.keys(LEVELS), "misfit"], stiffnessRows)}

Free densities help where black is left out and hurt elsewhere. Stiffer spectra with densities alike are a little better on whole levels and no better on single films in the median. A default is changed only where both gain: none was.

## Corrections inside a ladder

The card is one measured film, the target another of the same two paints, the toners are characterised without the target. What should be added is known from the recipes. Only films are used whose two fields differ by ${HIDES} ΔE₀₀ at most, read over white and taken as opaque; 100 g in the pot; the two paints, zinc white and bone black on offer.

${table(
  [
    "card → target",
    "to be added",
    "g",
    "found",
    "also poured",
    "status",
    "ΔE₀₀ before",
    "as poured, model alone",
    "as poured, tied to the card",
  ],
  stepRows,
)}

Main addition: median error ${percent(logError)}; ${percent(logError.filter((_, i) => isCorrected[i]))} among the ${isCorrected.filter(Boolean).length} of ${steps.length} that could be corrected. Where the status is *out-of-reach* no mix of the toners on offer is predicted to match the target, and the nearest colour is sought with whatever helps, more of the pot's own paint among it. *As poured* is the ΔE₀₀ between the measured target and what is predicted for the recipe really used: median ${median(steps.map((s) => s.before)).toFixed(1)} before, ${median(steps.map((s) => s.untied)).toFixed(2)} by the model alone, ${median(steps.map((s) => s.tied)).toFixed(2)} with the model tied to the card (see [belief.md](belief.md)).
`;
writeFileSync(new URL("../../docs/characterisation.md", import.meta.url), page);
