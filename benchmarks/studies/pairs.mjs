// Makes "pairs" in docs/evidence.md: pairs of films out of the ladders of real oil paint of Geldof et al. 2018. One is the card, the
// other is predicted from it. Needs the data: MASSTONE_OPEN_DATA names a folder with revigo/ in it. Takes some minutes.
// Run from the root: node benchmarks/studies/pairs.mjs
import { quantile, table } from "./figures.mjs";
import { importSources } from "./importSources.mjs";
import { writeSection } from "./writeSection.mjs";

const [
  ladders,
  fitting,
  anchoring,
  evaluating,
  modelling,
  believing,
  cans,
  sizing,
  spreading,
  drawing,
  chance,
  ciede,
  colours,
] = await importSources(
  "test/characterisation/paintLadders.ts",
  "src/characterisation/characterise.ts",
  "src/forward/anchor.ts",
  "src/forward/evaluate.ts",
  "src/forward/forwardModel.ts",
  "src/belief/belief.ts",
  "src/belief/canPrior.ts",
  "src/belief/beliefSizes.ts",
  "src/belief/spread.ts",
  "src/forecast/drawColours.ts",
  "src/numeric/probability/random.ts",
  "src/colorimetry/ciede2000.ts",
  "src/belief/colourSlopes.ts",
);
const { GEOMETRY, OPTIONS, SURFACE, jobFrom, colourDifference } = ladders;
const { BELIEF_SIZES, beliefSizesOf } = sizing;

const VIEWING = { observer: "1964-10", illuminants: [{ name: "D65" }] };
/** ΔE00 between the two fields of a film that is taken as opaque. */
const HIDES = 1;
const LEVEL = 0.9;
const DRAWS = 4000;
/** Grams in the pot of either film. */
const POT = 100;

const folder = process.env.MASSTONE_OPEN_DATA;
const missing = ladders.whatIsMissing(folder);
if (missing) throw new Error(missing);
const samples = ladders.readLadders(folder);
const difference = colourDifference({ toners: { grid: samples[0].readings[0].grid } });

const overWhite = ({ readings }) => Float64Array.from(readings[1].reflectance);
const hides = ({ readings: [black, white] }) => difference(black.reflectance, white.reflectance) <= HIDES;
const components = ({ recipe }) => Object.keys(recipe).sort();
const holdsAllOf = (one, other) => components(other).every((id) => components(one).includes(id));
const share = ({ recipe }, id) =>
  (recipe[id] ?? 0) / Object.values(recipe).reduce((sum, mass) => sum + mass, 0);

/** Two films of the same paints; or of one paint less, which is then poured into the card's pot. */
const opaque = samples.filter(hides);
const pairs = opaque.flatMap((target) =>
  opaque.flatMap((card) =>
    card !== target && components(target).length > 1 && holdsAllOf(target, card) ? [{ card, target }] : [],
  ),
);

const cache = new Map();
/** Toners from all films but some, with their misfits. */
function tonersWithout(out) {
  const names = out.map(({ name }) => name).sort();
  const key = names.join(" ");
  if (!cache.has(key)) {
    const kept = samples.filter(({ name }) => !names.includes(name));
    cache.set(
      key,
      fitting.characterise(jobFrom(kept, SURFACE, { ...OPTIONS, leaveOneOut: "each sample" })).toners,
    );
  }
  return cache.get(key);
}

const labDifference = (a, b) => ciede.ciede2000(Array.from(a), Array.from(b));
function predict({ card, target }, set, seed) {
  const model = modelling.createForwardModel(set, VIEWING, [GEOMETRY]);
  const inGrams = (sample) => Float64Array.from(set.toners, ({ id }) => POT * share(sample, id));
  const read = { grams: inGrams(card), reflectance: overWhite(card) };
  const truth = colours.coloursOf(model, overWhite(target)).lab;
  const into = evaluating.createEvaluation(model);
  const by = (one) => {
    evaluating.evaluate(one, inGrams(target), into);
    return { deltaE00: labDifference(truth, into.lab) };
  };
  const believed = (sizes, toners = set) => {
    const own = modelling.createForwardModel(toners, VIEWING, [GEOMETRY]);
    const prior = { model: own, ...cans.canPrior(toners, sizes.strengthSd), sizes };
    const belief = believing.beliefOf(prior, [read]);
    const { lab, covariance } = spreading.spreadOfFilm(
      belief,
      inGrams(target),
      new Float64Array(set.toners.length),
    );
    return judged(lab, covariance, truth, seed);
  };
  return {
    "toners alone": by(model),
    "tied band by band": by(anchoring.anchorToCard(model, read.grams, read.reflectance)),
    belief: believed(beliefSizesOf(set)),
    "belief, usual sizes": believed(BELIEF_SIZES, withoutMisfit(set)),
  };
}

function withoutMisfit(set) {
  return { ...set, toners: set.toners.map(({ misfit: _, ...toner }) => toner) };
}

/** How far off, and whether the intervals of level 0.9 hold: of L*, a*, b*, and the upper bound of ΔE00. */
function judged(lab, covariance, truth, seed) {
  const wide = drawing.halfWidth(LEVEL);
  const drawn = drawing.drawColours({ mean: lab, covariance }, DRAWS, chance.createRandom(seed));
  const bound = quantile(
    drawn.map((one) => labDifference(one, lab)),
    LEVEL,
  );
  const deltaE00 = labDifference(truth, lab);
  return {
    deltaE00,
    bound,
    holds: [...truth].map((value, i) => Math.abs(value - lab[i]) <= wide * Math.sqrt(covariance[4 * i])),
    holdsBound: deltaE00 <= bound,
  };
}

const two = (list) =>
  [0.5, 0.9]
    .map((level) =>
      quantile(
        list.map(({ deltaE00 }) => deltaE00),
        level,
      ).toFixed(2),
    )
    .join(" / ");
const perCent = (flags) => ((100 * flags.filter(Boolean).length) / flags.length).toFixed(0);
const intervals = (list) =>
  list[0].holds === undefined
    ? "–"
    : [0, 1, 2].map((i) => perCent(list.map(({ holds }) => holds[i]))).join(" / ");
const bounds = (list) =>
  list[0].holds === undefined ? "–" : perCent(list.map(({ holdsBound }) => holdsBound));

const apart = ({ card, target }) => difference(overWhite(card), overWhite(target));
const showsAll = ({ card, target }) => holdsAllOf(card, target);
const GROUPS = {
  all: () => true,
  "the card holds all paints": showsAll,
  "the card holds one alone": (pair) => !showsAll(pair),
};

const found = pairs.map((pair, at) => predict(pair, tonersWithout([pair.card, pair.target]), at));
const lines = Object.entries(GROUPS).flatMap(([group, isIn]) => {
  const own = found.filter((_, i) => isIn(pairs[i]));
  return Object.keys(found[0]).map((way, w) => {
    const list = own.map((ways) => ways[way]);
    return [w === 0 ? `${group} (${own.length})` : "", way, two(list), intervals(list), bounds(list)];
  });
});
const HEAD = [
  "pairs",
  "predicted by",
  "ΔE₀₀: median / 90 %",
  "L\\*, a\\*, b\\* inside, %",
  "ΔE₀₀ under its bound, %",
];
const ways = Object.keys(found[0]).length;

writeSection(
  "pairs",
  `## One film predicted from another

${pairs.length} pairs of hiding films out of the measured oil paints of Geldof et al. 2018, ${quantile(pairs.map(apart), 0.5).toFixed(0)} ΔE₀₀ apart in the median: one is the card, the other is predicted at its true recipe, with toners characterised without both. *Tied band by band* is what a correction went by before there was a belief; *usual sizes* are those of a toner set without [misfits](decisions.md#when-a-paint-line-is-badly-behaved).

${table(HEAD, lines.slice(0, ways))}

A card of one paint alone says nothing of the other: there the intervals are too narrow, as they are in b* of chrome yellow with black, where black acts differently from film to film.`,
  `# One film predicted from another: by what the card holds

${table(HEAD, lines.slice(ways))}`,
);
