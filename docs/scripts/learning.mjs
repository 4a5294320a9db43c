// Makes docs/learning.md: what cards teach of the strength of cans, and how well faults are found, in the simulated
// world of test/simulator, whose physics is not the package's. Seeded; no data needed. Run from the root, with the
// number of jobs if another is wanted: node docs/scripts/learning.mjs
import { writeFileSync } from "node:fs";
import { quantile, table } from "./figures.mjs";
import { importSources } from "./importSources.mjs";

const [learning, options, worlds, weighing, sums, colour, difference] = await importSources(
  "src/planning/learning/learnStrengths.ts",
  "src/planning/learning/learningOptions.ts",
  "test/simulator/world.ts",
  "src/colorimetry/weights.ts",
  "src/colorimetry/xyz.ts",
  "src/colorimetry/lab.ts",
  "src/colorimetry/ciede2000.ts",
);
const { learnStrengths } = learning;
const { LEARNING_DEFAULTS } = options;

const JOBS = Number(process.argv[2] ?? 30);
const FIRST_SEED = 5000;
const GROUPS = ["light", "mid", "dark"];
const CARDS = 3;
const EFFECTS = [0.5, 1];
/** Toners of less than this share of the pot, or that are most of its scattering, are not counted. */
const LEAST_SHARE = 0.003;

const toners = worlds.knownToners();
const { grid } = toners;
const IDS = toners.toners.map(({ id }) => id);
const weights = weighing.tristimulusWeights({ grid, illuminant: "D65", observer: "1964-10" });
const labOf = (reflectance) =>
  colour.labFromXyz(sums.xyzFromReflectance(reflectance, weights), weights.white);
const deltaE00 = (a, b) => difference.ciede2000(labOf(a), labOf(b));
const mean = (values) => values.reduce((sum, value) => sum + value, 0) / values.length;
const rms = (values) => Math.sqrt(mean(values.map((value) => value * value)));

const gathered = new Map();
const push = (key, value) => {
  if (!gathered.has(key)) gathered.set(key, []);
  gathered.get(key).push(value);
};
const all = (key) => gathered.get(key) ?? [];

/** Two toners more: mostly of what is in the pot, by 5 to 30 % of it. */
function additions(world, shown) {
  const { random } = world;
  const total = Object.values(shown).reduce((sum, grams) => sum + grams, 0);
  const inPot = Object.keys(shown).filter((id) => shown[id] > 0);
  const asked = {};
  for (let k = 0; k < 2; k++) {
    const from = random.uniform() < 0.8 ? inPot : IDS;
    const id = from[random.integer(from.length)];
    asked[id] = Math.max(0.5, (0.05 + 0.25 * random.uniform()) * Math.max(shown[id] ?? 0, 0.02 * total));
  }
  return asked;
}

/** Weights of the scattering of a pot, as the answer's `sdInPot` has them. */
function scatteringShares(pot) {
  const amounts = toners.toners.map(({ id, s }) => (pot[id] ?? 0) * mean(Array.from(Object.values(s)[0])));
  const total = amounts.reduce((sum, amount) => sum + amount, 0);
  return amounts.map((amount) => amount / total);
}

/** Errors of ln strength against the pot, before and after `count` cards, in sd too. */
function strengthErrors(group, world, cards, answer, count) {
  const { pot } = cards[count - 1];
  const total = Object.values(pot).reduce((sum, grams) => sum + grams, 0);
  const shares = scatteringShares(pot);
  const truth = IDS.map((id) => Math.log(world.cans[id] ?? 1));
  const found = answer.strengths.map(({ strength }) => Math.log(strength));
  const against = (values) => {
    const ofPot = values.reduce((sum, value, j) => sum + shares[j] * value, 0);
    return values.map((value) => value - ofPot);
  };
  const [true_, found_] = [against(truth), against(found)];
  answer.strengths.forEach(({ toner, sdInPot }, j) => {
    if (!((pot[toner] ?? 0) > LEAST_SHARE * total) || shares[j] > 0.7 || sdInPot === undefined) return;
    const error = found_[j] - true_[j];
    for (const key of [group, "all"]) {
      push(`before ${key} ${count}`, true_[j]);
      push(`error ${key} ${count}`, error);
      push(`inside ${key} ${count}`, Math.abs(error) <= 1.645 * sdInPot ? 1 : 0);
    }
  });
}

/** The grams too much (or too little) of a toner that move the colour of the pot by `effect`, if any do. */
function gramsFor(world, poured, id, sign, effect, most) {
  const base = world.truth(poured);
  const moved = (grams) =>
    deltaE00(world.truth({ ...poured, [id]: Math.max(0, poured[id] + sign * grams) }), base);
  let [low, high] = [0, most];
  if (moved(high) < effect) return undefined;
  for (let k = 0; k < 16; k++) {
    const middle = (low + high) / 2;
    if (moved(middle) < effect) low = middle;
    else high = middle;
  }
  return sign * high;
}

const verdictOf = (cards) => learnStrengths({ toners, pots: [{ name: "job", cards }] }).cards.at(-1);

function faults(world, { sim, before, asked }, cards, c) {
  const { random } = world;
  const judge = (kind, reading, isNamed) => {
    const { verdict, explanations } = verdictOf([...cards.slice(0, c), { ...cards[c], readings: [reading] }]);
    push(`caught ${kind}`, verdict === "doubted" ? 1 : 0);
    if (verdict === "doubted") push(`named ${kind}`, isNamed(explanations[0].fault) ? 1 : 0);
  };
  const id = Object.keys(asked)[random.integer(Object.keys(asked).length)];
  const noted = sim.shown[id] - (before?.shown[id] ?? 0);
  const place =
    c === 0 ? "first card" : (before.shown[id] ?? 0) > 0 ? "toner seen before" : "toner new in the pot";
  for (const effect of EFFECTS) {
    const sign = random.uniform() < 0.5 ? 1 : -1;
    const grams = gramsFor(world, sim.poured, id, sign, effect, sign > 0 ? 20 * noted : noted);
    if (grams === undefined) continue;
    const poured = { ...sim.poured, [id]: Math.max(0, sim.poured[id] + grams) };
    judge(`mis-pour ${effect} ${place}`, world.card({ ...sim, poured }), (fault) => fault.toner === id);
  }
  if (c === 0) return;
  const others = IDS.filter((other) => other !== id);
  const other = others[random.integer(others.length)];
  const swapped = {
    ...sim.poured,
    [id]: Math.max(0, sim.poured[id] - noted),
    [other]: (sim.poured[other] ?? 0) + noted,
  };
  if (deltaE00(world.truth(swapped), world.truth(sim.poured)) >= 0.5) {
    judge(
      "wrong toner",
      world.card({ ...sim, poured: swapped }),
      (f) => f.kind === "wrong-toner" && f.poured === other,
    );
  }
  if (deltaE00(world.truth(before.poured), world.truth(sim.poured)) >= 0.5) {
    judge("card of the pot before", world.card(before), (f) => f.kind === "swapped-card");
  }
  const sound = cards[c].readings[0];
  const band = random.integer(grid.count);
  const spoilt = (change) => ({ ...sound, reflectance: Array.from(sound.reflectance, change) });
  judge(
    "one band 0.02 too high",
    spoilt((r, b) => (b === band ? r + 0.02 : r)),
    (f) => f.kind === "spike",
  );
  judge(
    "all bands 0.01 too high",
    spoilt((r) => r + 0.01),
    (f) => f.kind === "offset",
  );
}

for (let i = 0; i < JOBS; i++) {
  const group = GROUPS[i % GROUPS.length];
  const world = worlds.createWorld(FIRST_SEED + i, toners);
  const steps = [];
  const cards = [];
  for (let c = 0; c < CARDS; c++) {
    const before = steps.at(-1)?.sim;
    const asked = before ? additions(world, before.shown) : world.formula(group, 200);
    const sim = world.pour(asked, before);
    steps.push({ sim, before, asked });
    cards.push({ name: `card ${c + 1}`, pot: sim.shown, readings: [world.card(sim)] });
  }
  for (let count = 1; count <= CARDS; count++) {
    const answer = learnStrengths({ toners, pots: [{ name: "job", cards: cards.slice(0, count) }] });
    strengthErrors(group, world, cards, answer, count);
    if (count === CARDS) {
      answer.cards.forEach(({ verdict, soundProbability }, c) => {
        push(`alarm ${c === 0 ? "first card" : "later cards"}`, verdict === "doubted" ? 1 : 0);
        push(`alarm ${group}`, verdict === "doubted" ? 1 : 0);
        push("alarm all", verdict === "doubted" ? 1 : 0);
        push("sound", soundProbability);
      });
    }
  }
  for (let c = 0; c < CARDS; c++) faults(world, steps[c], cards, c);
}

const percent = (values) => (values.length === 0 ? "–" : `${(100 * mean(values)).toFixed(0)} %`);
const counted = (values) => `${percent(values)} of ${values.length}`;
const counts = Array.from({ length: CARDS }, (_, c) => c + 1);
const strengthRows = [...GROUPS, "all"].map((group) => [
  group,
  rms(all(`before ${group} 1`)).toFixed(3),
  ...counts.map((count) => {
    const errors = all(`error ${group} ${count}`);
    return `${rms(errors).toFixed(3)}, ${quantile(errors.map(Math.abs), 0.5).toFixed(3)}`;
  }),
  ...counts.map((count) => counted(all(`inside ${group} ${count}`))),
]);
const places = ["toner seen before", "toner new in the pot", "first card"];
const misPours = places.flatMap((place) =>
  EFFECTS.map((effect) => {
    const key = `mis-pour ${effect} ${place}`;
    return [
      `mis-pour of ${effect} ΔE₀₀, ${place}`,
      counted(all(`caught ${key}`)),
      counted(all(`named ${key}`)),
    ];
  }),
);
const otherFaults = [
  "wrong toner",
  "card of the pot before",
  "one band 0.02 too high",
  "all bands 0.01 too high",
].map((kind) => [kind, counted(all(`caught ${kind}`)), counted(all(`named ${kind}`))]);

const page = `# What a card teaches

Made by \`docs/scripts/learning.mjs\`; seeded, so it comes out the same every time. [theory.md](theory.md#learning) has the formulas.

## What was done

${JOBS} jobs in the simulated world of \`test/simulator\`, a third each light, mid and dark: 200 g of a formula, a card, two toners more (mostly of those in the pot, by 5 to 30 %), a card, two more, a card. The world has another physics than the package: many streams of light in the film and Fresnel's boundary, white that crowds itself, film build that varies over a primer that shows through; a hand and a scale that err (0.03 g + 0.2 %, 0.1 g steps), an instrument that drifts, gloss that differs from card to card. The package knows the toners as \`characterise\` found them from drawdowns in that world; every can is then stronger or weaker, sd of ln strength 0.2. Constants of \`LEARNING_DEFAULTS\`: ${Object.entries(
  LEARNING_DEFAULTS,
)
  .map(([key, value]) => `${key} ${value}`)
  .join(", ")}. They were set on other seeds of this world and on \`docs/scripts/otherPaint.mjs\`.

## Strength

Error of ln strength against the pot as a whole, of toners that are at least 0.3 % of the pot: root mean square, median. Then the share of stated 90 % intervals that hold the truth (aim 87–93 %). With white that crowds itself and toners that are not quite as characterised there is no one true strength; what is left after the first card is mostly that, and it does not go away with more cards.

${table(["group", "before", ...counts.map((c) => `after ${c}`), ...counts.map((c) => `inside after ${c}`)], strengthRows)}

## Faults

False alarms: sound cards that were doubted.

${table(
  ["cards", "doubted"],
  ["first card", "later cards", ...GROUPS, "all"].map((key) => [key, counted(all(`alarm ${key}`))]),
)}

Power: cards with one fault that were doubted, and how many of the doubted had the right fault named first (of a mis-pour: the right toner). *Seen before*: the toner was in the pot of an earlier card. Mis-pours of which the whole pour would not make so much are left out.

${table(["fault", "doubted", "named"], [...misPours, ...otherFaults])}

## What it shows, and what not

A mis-pour of a toner that no card has shown yet looks exactly like a can of another strength: with cans of sd 0.2 no test can tell ten per cent too much from ten per cent too strong, and the answer is to learn it as strength, which serves the next correction as well. That is why the first card and new toners are hardly ever doubted. Once a card has shown the can, the next pour of it is held to what the can is worth.

Grams and noise of this world are invented: take the order of things from here, not the second digit.
`;

writeFileSync(new URL("../learning.md", import.meta.url), page);
