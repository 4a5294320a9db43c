import { createRandom, type Random } from "../../src/numeric/probability/random.js";
import { checkJob } from "../../src/problem/job.js";
import { type Problem, prepareProblem } from "../../src/problem/problem.js";
import { PAINT_IS_FREE } from "../../src/problem/terms.js";
import { withRisk } from "../../src/problem/withRisk.js";
import { solve } from "../../src/search/solve.js";
import { horseboxToners, type OneCardJob } from "../fixtures/horsebox.js";
import { randomJob } from "./randomJobs.js";

export interface SmallProblem {
  readonly job: OneCardJob;
  readonly problem: Problem;
}

const toners = horseboxToners();

/** A random job made ready; the seeds used in tests are few, so that a test takes milliseconds. */
export function smallProblem(seed: number): SmallProblem {
  const { job } = randomJob(toners, seed);
  return { job, problem: prepareProblem(checkJob(job)).problem };
}

/** Additions of any number of toners that come nearest, whatever their risk. */
export const closestMix = (problem: Problem) => solve(withRisk(problem, 0), PAINT_IS_FREE);

/** Random additions that stock and room allow, corners among them. */
export function randomAdditions({ bench }: Problem, random: Random): Float64Array {
  const total = bench.room * (random.uniform() < 0.2 ? 1 : random.uniform() ** 2);
  const parts = Array.from(bench.pot, () => (random.uniform() < 0.5 ? -Math.log(1 - random.uniform()) : 0));
  const sum = parts.reduce((a, b) => a + b, 0);
  return Float64Array.from(parts, (part, j) =>
    sum > 0 ? Math.min((part / sum) * total, bench.stock[j]) : 0,
  );
}

export const randomOf = (seed: number): Random => createRandom(seed);
