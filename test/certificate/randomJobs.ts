import { createEvaluation, evaluate } from "../../src/forward/evaluate.js";
import { createForwardModel } from "../../src/forward/forwardModel.js";
import { createRandom, type Random } from "../../src/numeric/probability/random.js";
import { checkJob, type Target } from "../../src/problem/job.js";
import { prepareProblem } from "../../src/problem/problem.js";
import type { Grams } from "../../src/toners/pot.js";
import type { TonerSet } from "../../src/toners/tonerSet.js";
import type { OneCardJob } from "../fixtures/horsebox.js";

/**
 * What a random job asks for: `added` is a mix made by adding to the pot within the limits; `other` another recipe of
 * the same toners; `taken` the pot with a toner taken out; `strange` a reflectance that no paint need have.
 */
export const KINDS = ["added", "other", "taken", "strange"] as const;
export type Kind = (typeof KINDS)[number];

export interface RandomJob {
  readonly kind: Kind;
  readonly job: OneCardJob;
  /** For `added`: grams that make the target exactly. */
  readonly added?: Grams;
}

const LIGHTS = [
  [{ name: "D65" }],
  [{ name: "D65" }, { name: "A", weight: 0.3 }],
  [{ name: "D65" }, { name: "F11", weight: 0.5 }],
] as const;

/** A job on toners of `set`: a pot with some white and up to four others, a card of cans up to 15 % off, with noise. */
export function randomJob(set: TonerSet, seed: number): RandomJob {
  const random = createRandom(seed);
  const kind = KINDS[random.integer(KINDS.length)];
  const illuminants = LIGHTS[random.integer(LIGHTS.length)];
  const toners = { ...set, toners: pick(random, set.toners, 5 + random.integer(set.toners.length - 4)) };
  const ids = toners.toners.map(({ id }) => id);
  const pot = randomMix(random, ids, 100);
  const viewing = { observer: "1964-10", illuminants } as const;
  const geometry = set.surfaces[0].geometry;
  const reading = (reflectance: ArrayLike<number>) => ({
    geometry,
    grid: set.grid,
    reflectance: Array.from(reflectance),
  });
  const off = () => 1 + 0.15 * (2 * random.uniform() - 1);
  const cans = { ...toners, toners: toners.toners.map((toner) => ({ ...toner, strength: off() })) };
  const seen = (of: TonerSet, grams: Grams) => {
    const model = createForwardModel(of, viewing, [geometry]);
    const at = createEvaluation(model);
    evaluate(
      model,
      of.toners.map(({ id }) => grams[id] ?? 0),
      at,
    );
    return at.reflectance;
  };
  const card = seen(cans, pot).map((r) => Math.max(0.005, r + 0.001 * random.normal()));
  const limits = {
    potMaxGrams: 120 + 400 * random.uniform(),
    maxPours: 12,
    scaleStepGrams: 0,
    stockGrams: Object.fromEntries(
      ids.filter(() => random.uniform() < 0.3).map((id) => [id, 30 * random.uniform()]),
    ),
  };
  const base = { toners, viewing, pot, card: { readings: [reading(card)] }, limits };
  const target = (reflectance: ArrayLike<number>): readonly Target[] => [
    { name: "panel", readings: [reading(reflectance)] },
  ];

  if (kind === "added") {
    const job = { ...base, targets: target(card) };
    const { problem } = prepareProblem(checkJob(job));
    const { bench, model } = problem;
    const share = random.uniform() ** 2;
    const wanted = model.set.toners.map(() => (random.uniform() < 0.4 ? random.uniform() ** 2 : 0));
    const total = wanted.reduce((sum, grams) => sum + grams, 0);
    const additions = wanted.map((grams, j) =>
      total > 0 ? Math.min(bench.stock[j], (grams / total) * share * bench.room) : 0,
    );
    const at = createEvaluation(model);
    evaluate(
      model,
      bench.pot.map((grams, j) => grams + additions[j]),
      at,
    );
    const added = Object.fromEntries(model.set.toners.map(({ id }, j) => [id, additions[j]]));
    return { kind, job: { ...job, targets: target(at.reflectance) }, added };
  }
  if (kind === "other")
    return { kind, job: { ...base, targets: target(seen(cans, randomMix(random, ids, 100))) } };
  if (kind === "taken") {
    const [most] = Object.keys(pot).sort((a, b) => pot[b] - pot[a]);
    const others = Object.keys(pot).filter((id) => id !== most);
    const out = others.length > 0 ? others[random.integer(others.length)] : most;
    return {
      kind,
      job: {
        ...base,
        targets: target(seen(cans, { ...pot, [out]: pot[out] * (0.2 + 0.7 * random.uniform()) })),
      },
    };
  }
  const tilt = 0.6 * (random.uniform() - 0.5);
  const level = 0.7 + 0.6 * random.uniform();
  const bent = card.map((r, b) => Math.min(0.97, Math.max(0.01, r * level * (1 + tilt * Math.sin(b / 5)))));
  return { kind, job: { ...base, targets: target(bent) } };
}

function pick<T>(random: Random, list: readonly T[], count: number): readonly T[] {
  const left = [...list];
  const [first] = left.splice(0, 1);
  const chosen = [first];
  while (chosen.length < count && left.length > 0)
    chosen.push(...left.splice(random.integer(left.length), 1));
  return chosen;
}

function randomMix(random: Random, ids: readonly string[], total: number): Grams {
  const [white, ...others] = ids;
  const parts: Record<string, number> = { [white]: random.uniform() };
  for (let i = 0; i < 1 + random.integer(4); i++) {
    parts[others[random.integer(others.length)]] = 0.02 + 0.5 * random.uniform() ** 2;
  }
  const sum = Object.values(parts).reduce((a, b) => a + b, 0);
  return Object.fromEntries(Object.entries(parts).map(([id, part]) => [id, (total * part) / sum]));
}
