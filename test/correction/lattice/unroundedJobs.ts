import type { Viewing } from "../../../src/colorimetry/viewing.js";
import { correct } from "../../../src/correction/correct.js";
import { createRandom, type Random } from "../../../src/numeric/probability/random.js";
import { predict } from "../../../src/prediction/predict.js";
import { checkJob, type Job } from "../../../src/problem/job.js";
import { type Problem, prepareProblem } from "../../../src/problem/problem.js";
import { PAINT_IS_FREE } from "../../../src/problem/terms.js";
import { FINE, refine } from "../../../src/search/refine.js";
import { trueRisk } from "../../../src/search/trueRisk.js";
import type { Grams } from "../../../src/toners/pot.js";
import type { TonerSet } from "../../../src/toners/tonerSet.js";
import type { OneCardJob } from "../../fixtures/horsebox.js";
import { scoreOf } from "./exhaustive.js";

/**
 * A seeded job of which nothing is rounded: few toners, up to four pours, and a panel near, far, or beyond what adding
 * reaches; the cup takes from a tenth to twenty times the pot again.
 */
export function unroundedJob(all: TonerSet, seed: number, cansSd = 0.1): OneCardJob {
  const random = createRandom(seed);
  const between = (low: number, high: number) => low + (high - low) * random.uniform();
  const toners = { ...all, toners: some(random, all.toners, 3 + random.integer(5)) };
  const ids = toners.toners.map(({ id }) => id);
  const colours = toners.toners.filter(({ s }) =>
    Object.values(s).every((values) => Array.from(values).every((one) => one > 0)),
  );
  const base = (colours[random.integer(colours.length)] ?? all.toners[0]).id;
  const pot: Record<string, number> = { [base]: between(50, 150) };
  for (const id of some(random, ids, random.integer(3))) pot[id] ??= between(0.5, 30);
  const potGrams = Object.values(pot).reduce((sum, grams) => sum + grams, 0);
  const viewing: Viewing = {
    observer: "1964-10",
    illuminants: random.uniform() < 0.5 ? [{ name: "D65" }] : [{ name: "D65" }, { name: "A", weight: 0.3 }],
  };
  const really = {
    ...toners,
    toners: toners.toners.map((toner) => ({ ...toner, strength: Math.exp(cansSd * random.normal()) })),
  };
  const read = (grams: Grams) => {
    const [{ geometry, grid, reflectance }] = predict({ toners: really, viewing, pot: grams }).readings;
    return {
      geometry,
      grid,
      reflectance: Array.from(reflectance, (r) => Math.max(0.001, r + 5e-4 * random.normal())),
    };
  };
  // Near the pot, as much again, or another pot altogether.
  const reach = [0.2, 1, 8][random.integer(3)];
  const panel: Record<string, number> = random.uniform() < 0.25 ? { [base]: 1 } : { ...pot };
  for (const id of some(random, ids, 1 + random.integer(4))) {
    panel[id] = (panel[id] ?? 0) + reach * potGrams * random.uniform() ** 2;
  }
  return {
    toners,
    viewing,
    pot,
    card: { readings: [read(pot)] },
    targets: [{ name: "panel", readings: [read(panel)] }],
    limits: {
      scaleStepGrams: 0,
      maxPours: 1 + random.integer(4),
      potMaxGrams: potGrams * (1 + [0.1, 0.5, 2, 20][random.integer(4)]),
      ...(random.uniform() < 0.2 && { minPourGrams: between(0, 3) }),
      stockGrams: Object.fromEntries(
        some(random, ids, random.integer(2)).map((id) => [id, potGrams * random.uniform()]),
      ),
    },
  };
}

/** One number of pours: the score of the answer's best, the least that many starts come to in every subset, what the answer may lack. */
export interface UnroundedComparison {
  readonly pours: number;
  readonly ours: number;
  readonly best: number;
  readonly gap: number;
  readonly bestAdditions: Grams;
}

/** The answer for such a job beside all subsets of its toners, each refined from several starts to the end. */
export function compareUnrounded(job: Job, seed: number): readonly UnroundedComparison[] {
  const answer = correct(job, { alternatives: false, wayOut: false });
  if (answer.status === "good-enough") return [];
  const score = scoreOf(job);
  const problem = trueRisk(prepareProblem(checkJob(job)));
  const { toners } = problem.model.set;
  const gap = answer.search.gapDeltaE00 ?? Number.POSITIVE_INFINITY;
  const most = job.limits?.maxPours ?? 4;
  let best = { score: score({}), additions: {} as Grams };
  const compared: UnroundedComparison[] = [];
  for (let pours = 1; pours <= Math.min(most, toners.length); pours++) {
    for (const chosen of subsets(Array.from(toners.keys()), pours)) {
      for (const start of starts(problem, chosen, seed)) {
        const { additions } = refine(problem, chosen, start, {
          tolerances: FINE,
          paint: PAINT_IS_FREE,
          least: (j) => problem.bench.least[j],
        });
        const grams = Object.fromEntries(chosen.map((j) => [toners[j].id, additions[j]]));
        const value = score(grams);
        if (value < best.score) best = { score: value, additions: grams };
      }
    }
    const mix = answer.byPours.filter((one) => one.pours <= pours).at(-1);
    const ours = score(Object.fromEntries((mix?.additions ?? []).map(({ toner, grams }) => [toner, grams])));
    compared.push({ pours, ours, best: best.score, gap, bestAdditions: best.additions });
  }
  return compared;
}

/** From the least pours, from a full cup, and from mixes drawn between. */
function starts({ bench }: Problem, chosen: readonly number[], seed: number): readonly (readonly number[])[] {
  const random = createRandom(seed);
  const least = chosen.map((j) => bench.least[j]);
  const room = bench.room - least.reduce((sum, grams) => sum + grams, 0);
  if (room < 0 || chosen.some((j) => bench.stock[j] < bench.least[j])) return [];
  const filled = (share: number, shares: readonly number[]) => {
    const all = shares.reduce((sum, one) => sum + one, 0);
    return least.map((grams, i) =>
      Math.min(bench.stock[chosen[i]], grams + (share * room * shares[i]) / all),
    );
  };
  const drawn = Array.from({ length: 3 }, () =>
    filled(
      random.uniform() ** 3,
      chosen.map(() => -Math.log(1 - random.uniform())),
    ),
  );
  return [
    least,
    filled(
      1,
      least.map(() => 1),
    ),
    ...drawn,
  ];
}

function subsets(from: readonly number[], size: number): readonly (readonly number[])[] {
  if (size === 0) return [[]];
  return from.flatMap((one, i) => subsets(from.slice(i + 1), size - 1).map((rest) => [one, ...rest]));
}

function some<T>(random: Random, list: readonly T[], count: number): readonly T[] {
  const rest = [...list];
  return Array.from(
    { length: Math.min(count, list.length) },
    () => rest.splice(random.integer(rest.length), 1)[0],
  );
}
