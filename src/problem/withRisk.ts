import type { Problem } from "./problem.js";

/** The problem with the doubt of its pours counted for a share of what it is: 0 asks what is possible, whatever the doubt. */
export function withRisk(problem: Problem, share: number): Problem {
  return { ...problem, risk: problem.risk.map((value) => share * value) };
}
