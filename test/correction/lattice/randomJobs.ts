import { createRandom, type Random } from "../../../src/numeric/probability/random.js";
import { predict } from "../../../src/prediction/predict.js";
import type { Job } from "../../../src/problem/job.js";
import type { Limits } from "../../../src/problem/limits.js";
import type { Grams } from "../../../src/toners/pot.js";
import type { TonerSet } from "../../../src/toners/tonerSet.js";
import { amountsOf, countMixes } from "./exhaustive.js";

const LIGHTS = [
  [{ name: "D65" }],
  [{ name: "D65" }, { name: "A", weight: 0.3 }],
  [{ name: "D65" }, { name: "F11" }],
] as const;

/** More than this is not tried one by one. */
const MOST_MIXES = 60_000;

/** Most that the cup takes, in pots, unless told otherwise. */
const MOST_ROOM = 0.49;

/**
 * A seeded job whose mixes can all be tried: toners drawn from a set, a pot of up to four of them, a card of cans that
 * are not as strong as said, and panels that adding reaches, nearly reaches or does not. The reflectances are the
 * model's with other strengths and noise: such jobs judge the search, not the model.
 */
export function randomJob(all: TonerSet, seed: number, mostRoom = MOST_ROOM): Job {
  const random = createRandom(seed);
  const between = (low: number, high: number) => low + (high - low) * random.uniform();
  const chance = (share: number) => random.uniform() < share;
  const chosen = pick(random, all.toners, 3 + random.integer(chance(0.2) ? 10 : 5));
  const toners: TonerSet = { ...all, toners: chosen };
  const ids = chosen.map(({ id }) => id);
  const colours = chosen.filter(({ s }) =>
    Object.values(s).every((values) => Array.from(values).every((one) => one > 0)),
  );
  const base = colours[random.integer(colours.length)].id;
  const inPot = [base, ...pick(random, ids, random.integer(4)).filter((id) => id !== base)];
  const pot: Grams = Object.fromEntries(
    inPot.map((id, i) => [id, round(i === 0 ? between(50, 150) : between(0.5, 30))]),
  );
  const potGrams = Object.values(pot).reduce((sum, grams) => sum + grams, 0);
  const viewing = { observer: "1964-10", illuminants: LIGHTS[random.integer(LIGHTS.length)] } as const;
  const really: TonerSet = {
    ...all,
    toners: chosen.map((toner) => ({ ...toner, strength: Math.exp(0.1 * random.normal()) })),
  };
  const read = (grams: Grams) => {
    const [{ geometry, grid, reflectance }] = predict({ toners: really, viewing, pot: grams }).readings;
    const noisy = Array.from(reflectance, (r) => Math.max(0.001, r + 0.0005 * random.normal()));
    return { geometry, grid, reflectance: noisy };
  };
  const room = round(potGrams * between(0.05, mostRoom));
  const panel = (): Grams => {
    const kind = random.uniform();
    const grams: Record<string, number> = { ...pot };
    // Added within the cup; more than the cup holds; or something taken out of the pot as well.
    const share = kind < 0.6 ? 0.8 : 2;
    const added = pick(random, ids, 1 + random.integer(3));
    for (const id of added) {
      grams[id] = (grams[id] ?? 0) + (room * share * random.uniform()) / added.length;
    }
    if (kind > 0.8) grams[inPot[0]] *= between(0.5, 1);
    return grams;
  };
  const targets = Array.from({ length: chance(0.3) ? 2 : 1 }, (_, i) => ({
    name: `panel ${i + 1}`,
    role: i === 1 && chance(0.5) ? ("blend" as const) : ("edge" as const),
    weight: i === 1 ? between(0.2, 1) : 1,
    readings: [read(panel())],
  }));
  const job: Job = {
    toners,
    viewing,
    pot,
    card: { readings: [read(pot)] },
    targets,
    ...(chance(0.2) && { objective: "minimax" as const }),
  };
  const stocked = pick(random, ids, random.integer(3));
  const dropped = chance(0.2) ? [ids[random.integer(ids.length)]] : [];
  const maxPours = 1 + random.integer(3);
  for (let step = room / between(4, 60); ; step *= 1.3) {
    const scaleStepGrams = Number(step.toPrecision(3));
    const limits: Limits = {
      potMaxGrams: potGrams + room,
      scaleStepGrams,
      maxPours,
      stockGrams: Object.fromEntries(stocked.map((id) => [id, room * between(0, 0.5)])),
      gramsPerDrop: Object.fromEntries(dropped.map((id) => [id, scaleStepGrams * between(0.2, 0.8)])),
      ...(chance(0.3) && { minPourGrams: scaleStepGrams * between(0, 4) }),
    };
    const limited = { ...job, limits };
    if (countMixes(amountsOf(limited), maxPours) <= MOST_MIXES) return limited;
  }
}

/** Some of a list, each at most once. */
function pick<T>(random: Random, list: readonly T[], count: number): readonly T[] {
  const rest = [...list];
  return Array.from(
    { length: Math.min(count, list.length) },
    () => rest.splice(random.integer(rest.length), 1)[0],
  );
}

const round = (grams: number) => Number(grams.toFixed(1));
