// A thread of learning.mjs: simulates the jobs of the seeds it is given and sends back what was found in each.
import { parentPort } from "node:worker_threads";
import { importSources } from "./importSources.mjs";

const [learning, worlds, formulas, weighing, sums, colour, difference] = await importSources(
  "src/planning/learning/learnStrengths.ts",
  "test/simulator/world.ts",
  "test/simulator/formulas.ts",
  "src/colorimetry/weights.ts",
  "src/colorimetry/xyz.ts",
  "src/colorimetry/lab.ts",
  "src/colorimetry/ciede2000.ts",
);
const { learnStrengths } = learning;

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

/** What was found in the job at hand: names and numbers, in the order in which they were found. */
let found = [];
const push = (key, value) => found.push([key, value]);

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

/** Errors of ln strength against the pot after `count` cards, by the number of cards that have shown the toner. */
function strengthErrors(group, world, cards, answer, count) {
  const { pot } = cards[count - 1];
  const total = Object.values(pot).reduce((sum, grams) => sum + grams, 0);
  const shares = scatteringShares(pot);
  const truth = IDS.map((id) => Math.log(world.cans[id] ?? 1));
  const learnt = answer.strengths.map(({ strength }) => Math.log(strength));
  const against = (values) => {
    const ofPot = values.reduce((sum, value, j) => sum + shares[j] * value, 0);
    return values.map((value) => value - ofPot);
  };
  const [true_, learnt_] = [against(truth), against(learnt)];
  answer.strengths.forEach(({ toner, sdInPot }, j) => {
    if (!((pot[toner] ?? 0) > LEAST_SHARE * total) || shares[j] > 0.7 || sdInPot === undefined) return;
    const error = learnt_[j] - true_[j];
    const shown = cards.slice(0, count).filter((card) => card.pot[toner] > 0).length;
    for (const key of [group, "all"]) {
      if (shown === 1) push(`before ${key}`, true_[j]);
      push(`error ${key} ${shown}`, error);
      push(`inside ${key} ${shown}`, Math.abs(error) <= 1.645 * sdInPot ? 1 : 0);
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

/** Judges a card with a fault, and keeps whether it was caught and whether `isNamed` of the likeliest explanation. */
function judge(kinds, cards, reading, isNamed) {
  const pot = { name: "job", cards: [...cards.slice(0, -1), { ...cards.at(-1), readings: [reading] }] };
  const { verdict, explanations } = learnStrengths({ toners, pots: [pot] }).cards.at(-1);
  for (const kind of kinds) {
    push(`caught ${kind}`, verdict === "doubted" ? 1 : 0);
    if (verdict === "doubted") push(`named ${kind}`, isNamed(explanations[0].fault) ? 1 : 0);
  }
}

/** Too much or too little of one toner, for each toner poured (of the first pot only one). */
function misPours(effect, group, world, { sim, before, asked }, cards) {
  const { random } = world;
  for (const toner of before ? Object.keys(asked) : [Object.keys(asked)[0]]) {
    const noted = sim.shown[toner] - (before?.shown[toner] ?? 0);
    const sign = random.uniform() < 0.5 ? 1 : -1;
    const grams = gramsFor(world, sim.poured, toner, sign, effect, sign > 0 ? 20 * noted : noted);
    if (grams === undefined) continue;
    const isSeen = before?.shown[toner] > 0;
    const place = isSeen ? "toner seen before" : before ? "toner new in the pot" : "first card";
    const poured = { ...sim.poured, [toner]: Math.max(0, sim.poured[toner] + grams) };
    const kinds = ["", ...(isSeen ? [`, ${group}`] : [])].map((of) => `mis-pour ${effect} ${place}${of}`);
    judge(kinds, cards, world.card({ ...sim, poured }), (fault) => fault.toner === toner);
  }
}

function otherFaults(world, { sim, before, asked }, cards) {
  const { random } = world;
  const ids = Object.keys(asked);
  const id = ids[random.integer(ids.length)];
  const noted = sim.shown[id] - (before.shown[id] ?? 0);
  const others = IDS.filter((other) => other !== id);
  const other = others[random.integer(others.length)];
  const poured = {
    ...sim.poured,
    [id]: Math.max(0, sim.poured[id] - noted),
    [other]: (sim.poured[other] ?? 0) + noted,
  };
  const shows = (grams) => deltaE00(world.truth(grams), world.truth(sim.poured)) >= EFFECTS[0];
  if (shows(poured)) {
    const isNamed = (fault) => fault.kind === "wrong-toner" && fault.poured === other;
    judge(["wrong toner"], cards, world.card({ ...sim, poured }), isNamed);
  }
  if (shows(before.poured)) {
    judge(["card of the pot before"], cards, world.card(before), ({ kind }) => kind === "swapped-card");
  }
  const sound = cards.at(-1).readings[0];
  const band = random.integer(grid.count);
  const spoilt = (change) => ({ ...sound, reflectance: Array.from(sound.reflectance, change) });
  const spike = spoilt((r, b) => (b === band ? r + 0.02 : r));
  judge(["one band 0.02 too high"], cards, spike, ({ kind }) => kind === "spike");
  const lifted = spoilt((r) => r + 0.01);
  judge(["all bands 0.01 too high"], cards, lifted, ({ kind }) => kind === "offset");
}

/** `faulty`: whether cards are also given a mis-pour of the first effect, or every fault. */
function job({ seed, faulty }) {
  found = [];
  const group = formulas.GROUPS[seed % formulas.GROUPS.length];
  const world = worlds.createWorld(seed, toners);
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
      answer.cards.forEach(({ verdict }, c) => {
        push(`alarm ${c === 0 ? "first card" : "later cards"}`, verdict === "doubted" ? 1 : 0);
        push(`alarm ${group}`, verdict === "doubted" ? 1 : 0);
        push("alarm all", verdict === "doubted" ? 1 : 0);
      });
    }
  }
  steps.forEach((step, c) => {
    const upTo = cards.slice(0, c + 1);
    EFFECTS.forEach((effect, e) => {
      if (faulty === "every" || (faulty === "mis-poured" && e === 0))
        misPours(effect, group, world, step, upTo);
    });
    if (faulty === "every" && c > 0) otherFaults(world, step, upTo);
  });
  return found;
}

parentPort.on("message", ({ id, ...asked }) => parentPort.postMessage({ id, outcome: job(asked) }));
