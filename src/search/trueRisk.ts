import { spread } from "../belief/spread.js";
import { sum } from "../core/sum.js";
import { after } from "../problem/after.js";
import { colourScore } from "../problem/goal.js";
import { LIMITS_DEFAULTS } from "../problem/limits.js";
import type { PreparedProblem, Problem } from "../problem/problem.js";
import { costOfPours, PAINT_IS_FREE } from "../problem/terms.js";
import { withRisk } from "../problem/withRisk.js";
import { forSquares } from "./searchMixes.js";
import { solve } from "./solve.js";

/** Below this distance, in ΔE00, pours are small enough for the quadratic form to hold (design value). */
const NEAR = 3;

/**
 * The problem with its risk no larger than it truly is where colour alone would go: ΔᵀQΔ has no end, but a pot that is
 * mostly new paint is no more in doubt than new paint. Q times min(1, Σ w·tr(M·C·Mᵀ) ÷ ΔᵀQΔ) at the closest mix of any
 * number of pours, C the covariance of its colours by the belief.
 */
export function trueRisk({ problem, belief }: Pick<PreparedProblem, "problem" | "belief">): Problem {
  const { goal, bench } = problem;
  const nothing = new Float64Array(bench.pot.length);
  if (colourScore(goal, after(problem, nothing).lab) <= NEAR) return problem;
  // Without the limits of cup and stock, so that a larger cup does not change the objective.
  const room = LIMITS_DEFAULTS.timesThePot * sum(bench.pot);
  const free = { ...bench, stock: bench.stock.map(() => Number.POSITIVE_INFINITY), room };
  const { additions } = solve(forSquares({ ...withRisk(problem, 0), bench: free }), PAINT_IS_FREE);
  const said = costOfPours(problem.risk, additions);
  const { lab, ofPaint } = spread(belief, additions);
  let truly = 0;
  for (const { place, weight, metric } of goal.aims) {
    for (const row of metric) {
      row.forEach((a, i) => {
        row.forEach((b, k) => {
          truly += weight * a * b * ofPaint[(place + i) * lab.length + place + k];
        });
      });
    }
  }
  return truly < said ? withRisk(problem, truly / said) : problem;
}
