import type { Problem } from "../problem/problem.js";

/** Above this number, only the toners of the best pairs and of the solution without a limit on pours are kept. */
const MOST_TONERS = 60;

function canPour({ bench: { stock, room, least } }: Problem, j: number): boolean {
  return Math.min(stock[j], room) >= Math.max(least[j], LEAST_GRAMS);
}

/** Grams below what any scale shows. */
export const LEAST_GRAMS = 1e-5;

export function countPourable(problem: Problem): number {
  return problem.bench.pot.reduce((count, _, j) => count + Number(canPour(problem, j)), 0);
}

/** Toners of which stock and cup allow a pour; of very many those in the unlimited solution, then those in the pot. */
export function pourable(problem: Problem, full: Float64Array): readonly number[] {
  const { pot } = problem.bench;
  const all = Array.from(pot.keys()).filter((j) => canPour(problem, j));
  if (all.length <= MOST_TONERS) return all;
  const rank = (j: number) => 2 * Number(full[j] > 0) + Number(pot[j] > 0);
  return all
    .sort((a, b) => rank(b) - rank(a) || a - b)
    .slice(0, MOST_TONERS)
    .sort((a, b) => a - b);
}
