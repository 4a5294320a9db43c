// Makes docs/anchor.md: what is left after one correction, with the model tied to the card in different ways, in a
// world of other physics than the package's (otherPaint.mjs). Seeded; no data needed.
// Run from the root: node benchmarks/studies/anchor.mjs
import { writeFileSync } from "node:fs";
import { quantile, spread, table } from "./figures.mjs";
import { importSources } from "./importSources.mjs";
import {
  createWorkshop,
  drawRecipe,
  GEOMETRY,
  GRID,
  IDS,
  KINDS,
  tonerSet,
  WHITE,
  WORLDS,
} from "./otherPaint.mjs";

const [anchor, forward, job, problem, mixes, weighing, sums, lab, difference, chance] = await importSources(
  "src/prediction/anchor.ts",
  "src/prediction/forwardModel.ts",
  "src/correction/job.ts",
  "src/correction/problem.ts",
  "src/correction/search/findMix.ts",
  "src/colorimetry/weights.ts",
  "src/colorimetry/xyz.ts",
  "src/colorimetry/lab.ts",
  "src/colorimetry/ciede2000.ts",
  "src/numeric/random.ts",
);
const { ANCHOR_DEFAULTS } = anchor;

const JOBS = 800;
const JOBS_ELSEWHERE = 400;
const SEED = 2;
const VIEWING = { observer: "1964-10", illuminants: [{ name: "D65" }, { name: "A", weight: 0.3 }] };

const weights = weighing.tristimulusWeights({ grid: GRID, illuminant: "D65", observer: "1964-10" });
const labOf = (reflectance) => lab.labFromXyz(sums.xyzFromReflectance(reflectance, weights), weights.white);
const deltaE00 = (a, b) => difference.ciede2000(labOf(a), labOf(b));

/** One job with what really happens when grams are poured, and ΔE00 of the card before. */
function drawJob(kind, random, world) {
  const workshop = createWorkshop(random, world);
  const { pot, added } = drawRecipe(kind, random);
  const dirtyGrams = (grams) => (workshop.dirtIsInWhite ? grams[WHITE] : pot.reduce((sum, g) => sum + g, 0));
  const sprayed = (grams) => workshop.read(grams, dirtyGrams(grams));
  const target = workshop.read(
    pot.map((g, j) => g + added[j]),
    0,
  );
  const reading = (reflectance) => ({ geometry: GEOMETRY, grid: GRID, reflectance });
  const card = workshop.noisy(sprayed(pot));
  const checked = job.checkJob({
    toners: tonerSet(),
    viewing: VIEWING,
    pot: Object.fromEntries(IDS.map((id, j) => [id, pot[j]])),
    card: { readings: [reading(card)] },
    targets: [{ name: "panel", readings: [reading(workshop.noisy(target))] }],
    limits: { scaleStepGrams: 0.01 },
  });
  return {
    problem: problem.prepareProblem(checked).problem,
    card: Float64Array.from(card),
    strengths: workshop.strengths,
    before: deltaE00(target, sprayed(pot)),
    leftAfter: (additions) => deltaE00(target, sprayed(pot.map((g, j) => g + additions[j]))),
  };
}

/** What `correct` would pour if its model were this one. */
function additionsWith(model, prepared) {
  const tied = { ...prepared, model };
  return mixes.findMix(tied).picked?.additions ?? new Float64Array(tied.bench.pot.length);
}

const model = (toners, { geometries }) => forward.createForwardModel(toners, VIEWING, geometries);
const tiedBy =
  (constants) =>
  ({ problem: { model: bare, bench }, card }) =>
    anchor.anchorToCard(model(bare.set, bare), bench.pot, card, constants);

const { strengthSd, reflectanceSd } = ANCHOR_DEFAULTS;
const byRatio = (ratio) => tiedBy({ strengthSd, reflectanceSd: ratio * strengthSd });

/** The limits of the split are the other ways: no doubt in the reading, no doubt in the cans. */
const RATIO = "ratio";
const GHOST = "ghost";
const VARIANTS = {
  "no anchor": ({ problem: { model: bare } }) => model(bare.set, bare),
  [RATIO]: tiedBy({ strengthSd: 1, reflectanceSd: 1e-9 }),
  [GHOST]: tiedBy({ strengthSd: 0, reflectanceSd: 1 }),
  "split as shipped": tiedBy(ANCHOR_DEFAULTS),
  "split, strengths known": ({ problem: { model: bare, bench }, card, strengths }) =>
    anchor.anchorToCard(model(tonerSet(strengths), bare), bench.pot, card),
};

/** ΔE00 left by each variant, in the order of the jobs; job i is of kind i modulo their number. */
function left(variants, world, jobs) {
  const random = chance.createRandom(SEED);
  const before = [];
  const after = Object.fromEntries(Object.keys(variants).map((name) => [name, []]));
  for (let i = 0; i < jobs; i++) {
    const one = drawJob(KINDS[i % KINDS.length], random, world);
    before.push(one.before);
    for (const [name, build] of Object.entries(variants)) {
      after[name].push(one.leftAfter(additionsWith(build(one), one.problem)));
    }
  }
  return { before, after };
}

/** The page's sentences are held against its figures each time it is made. */
function claim(holds, sentence) {
  if (!holds) throw new Error(`docs/anchor.md would say what is no longer so: ${sentence}`);
  return sentence;
}

const ofKind = (values, kind) => values.filter((_, i) => KINDS[i % KINDS.length] === kind);
const rms = (values) => Math.sqrt(values.reduce((sum, d) => sum + d * d, 0) / values.length);
const byKind = (name, values) => [
  name,
  ...KINDS.map((kind) => spread(ofKind(values, kind))),
  spread(values),
  rms(values).toFixed(2),
];

const scanned = ["0.005", "0.01", "0.015", "0.02", "0.03", "0.04", "0.05", "0.06", "0.1", "0.2"];
const shippedRatio = String(Number((reflectanceSd / strengthSd).toPrecision(3)));

const full = left(
  { ...VARIANTS, ...Object.fromEntries(scanned.map((ratio) => [ratio, byRatio(Number(ratio))])) },
  WORLDS["as described"],
  JOBS,
);
const best = scanned.reduce((least, ratio) =>
  rms(full.after[ratio]) < rms(full.after[least]) ? ratio : least,
);

const RATIOS_ELSEWHERE = ["0.005", "0.015", "0.03", "0.04", "0.05", "0.1"];
const elsewhere = Object.entries(WORLDS).map(([name, world]) => {
  const variants = {
    [RATIO]: VARIANTS[RATIO],
    ...Object.fromEntries(RATIOS_ELSEWHERE.map((ratio) => [ratio, byRatio(Number(ratio))])),
    [GHOST]: VARIANTS[GHOST],
  };
  return { name, after: left(variants, world, JOBS_ELSEWHERE).after };
});
const MEASURES = [(values) => quantile(values, 0.5), (values) => quantile(values, 0.9), rms];

const ofNearlyWhite = (name) => rms(ofKind(full.after[name], "nearly white"));
const medianOfMid = (name) => quantile(ofKind(full.after[name], "mid"), 0.5);
const inWorlds = (of) =>
  elsewhere.filter(({ after }) => [RATIO, GHOST].every((pure) => of(after[shippedRatio]) <= of(after[pure])))
    .length;
const conclusion = [
  claim(
    ofNearlyWhite(RATIO) > ofNearlyWhite("no anchor"),
    "In nearly white pots the ratio is worse than no tie at all: the model's K is next to nothing there, and any trace reads as cans of many times their strength.",
  ),
  claim(
    medianOfMid(GHOST) > 1.2 * medianOfMid(RATIO),
    "The ghost forgets what the card says of the cans, which costs most where the pot is strongly coloured.",
  ),
  `By root mean square the split as shipped is at least as good as either pure way in ${inWorlds(rms)} of the ${elsewhere.length} worlds, by median in ${inWorlds((values) => quantile(values, 0.5))}, at 90 % in ${inWorlds((values) => quantile(values, 0.9))}.`,
].join(" ");

const kindsHead = [...KINDS, "all", "rms of all"];
const page = `# Tying the model to the card

What is left after **one** correction step, with the model tied to the card in different ways. Made by \`benchmarks/studies/anchor.mjs\`; seeded, so it comes out the same every time. [theory.md](theory.md#tie-to-the-card) has the formulas.

## What was done

${JOBS} jobs with invented toners (\`benchmarks/studies/otherPaint.mjs\`), a quarter each from a pot that is *nearly white* (100 g of white with at most 0.3 g of up to two toners, strong toners to be added), *light* (up to 6 g of one to three), *mid* (5 to 60 g of two or three) and *dark* (black and others with little white). The package knows K, S at full strength and a surface with k₁ = 0.04, k₂ = 0.6. The world that card, target and result come from is another:

- every can stronger or weaker (standard deviation of ln strength 0.2);
- k₁ ± 0.005, k₂ ± 0.03 and falling with the reflectance by up to 0.08, up to 3 % of k₁ past the specular trap;
- white that scatters up to 25 % less per gram where it is crowded;
- a trace of absorption that no toner has (10⁻⁵ to 5·10⁻³ of white's S, at a random wavelength), in the pot or in the can of white, not in the target;
- readings of card and target with noise of 0.0005 to 0.003.

Each step is what \`correct\` pours (at most four pours, scale of 0.01 g) with only the tie to the card changed; what counts is the true ΔE₀₀ (D65, 10°) between target and mix afterwards. Toners that are not in the pot yet cannot show their strength on any card, so no tie brings this to zero.

## Ways to tie

ΔE₀₀ after the step: median, 90 %, largest.

${table(
  ["tie", ...kindsHead],
  [
    byKind("before the step", full.before),
    ...Object.keys(VARIANTS).map((name) => byKind(name, full.after[name])),
  ],
)}

*Ratio* is the plain A = q<sub>card</sub>/q<sub>model</sub>; *ghost* takes all that the model misses as absorption of the pot itself; the *split* lies between, as shipped with σ<sub>s</sub> = ${strengthSd}, σ<sub>R</sub> = ${reflectanceSd}. *Strengths known* is the same split with the true strength of every can: what is left there is the surface, the crowding, the trace and the noise.

## The two constants

The split is set by the ratio σ<sub>R</sub>/σ<sub>s</sub> alone, since share = K²σ<sub>s</sub>²/(K²σ<sub>s</sub>² + S²(dq/dR)²σ<sub>R</sub>²); σ<sub>s</sub> also says how far a factor may go (3σ<sub>s</sub>), and is ${strengthSd} throughout. Shipped: ${shippedRatio}. Smallest root mean square in this scan: ${best}.

${table(
  ["σ<sub>R</sub>/σ<sub>s</sub>", ...kindsHead],
  scanned.map((ratio) => byKind(ratio, full.after[ratio])),
)}

## Other worlds

Whether that hangs on how this world was made: median, 90 %, root mean square over ${JOBS_ELSEWHERE} jobs in each of four, by σ<sub>R</sub>/σ<sub>s</sub>. *Strengths alone* has the package's own surface, no crowding and no trace.

${table(
  ["world", ...Object.keys(elsewhere[0].after)],
  elsewhere.map(({ name, after }) => [
    name,
    ...Object.values(after).map((values) => MEASURES.map((of) => of(values).toFixed(2)).join(", ")),
  ]),
)}

## What it shows, and what not

${conclusion}

The worlds are invented. They differ from the package's equations in kinds that are known of paint, by amounts that were guessed: the order of the ways to tie is what to take from here, not the figures.
`;

writeFileSync(new URL("../../docs/anchor.md", import.meta.url), page);
