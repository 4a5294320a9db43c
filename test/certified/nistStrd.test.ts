import { describe, expect, it } from "vitest";
import { levenbergMarquardt } from "../../src/numeric/levenbergMarquardt.js";
import { differentiate } from "./dual.js";
import { strdModels } from "./strdModels.js";
import { type StrdProblem, strdProblems } from "./strdProblems.js";

/** Equal significant digits: the "log relative error" of NIST. */
const digits = (value: number, certified: number) => -Math.log10(Math.abs(value / certified - 1) + 1e-16);

function solve({ name, y, x, x2 }: StrdProblem, start: readonly number[]) {
  const predict = strdModels[name];
  // Nelson's model is of the logarithm of y.
  const observed = name === "Nelson" ? y.map(Math.log) : y;
  const model = differentiate((b) => observed.map((value, i) => predict(b, x[i], x2?.[i] ?? 0).minus(value)));
  return levenbergMarquardt(
    { residualCount: y.length, start, ...model },
    { maxIterations: 1000, costTolerance: 1e-16 },
  );
}

const worstDigits = (found: Float64Array, certified: readonly number[]) =>
  Math.min(...certified.map((value, j) => digits(found[j], value)));

/** Its certified sum of squares, 1.4e-25, is below what residuals of doubles near 1 can show. */
const BELOW_ROUNDING = "Lanczos1";

/** From the first start, MGH10 creeps along a valley and BoxBOD is thrown onto a plateau. */
const UNSOLVED_FROM_FIRST = ["MGH10", "BoxBOD"];

describe.each(strdProblems)("levenbergMarquardt, NIST StRD (certified, seen): $name", (problem) => {
  const starts: [string, readonly number[]][] = [["second", problem.start2]];
  if (!UNSOLVED_FROM_FIRST.includes(problem.name)) starts.push(["first", problem.start1]);

  it.each(starts)(
    "six digits of every parameter and of the sum of squares, from the %s start",
    (_, start) => {
      const result = solve(problem, start);
      expect(result.converged).toBe(true);
      expect(worstDigits(result.x, problem.certified)).toBeGreaterThan(6);
      if (problem.name === BELOW_ROUNDING) expect(2 * result.cost).toBeLessThan(1e-20);
      else expect(digits(2 * result.cost, problem.residualSquares)).toBeGreaterThan(6);
    },
  );
});

describe("levenbergMarquardt, what it does not solve", () => {
  const named = (name: string) => {
    const problem = strdProblems.find((candidate) => candidate.name === name);
    if (problem === undefined) throw new Error(`${name} is missing`);
    return problem;
  };

  it("MGH10 from the first start: stops at the iteration limit and says so", () => {
    const result = solve(named("MGH10"), named("MGH10").start1);
    expect(result).toMatchObject({ converged: false, stopReason: "iteration-limit" });
  });

  it("BoxBOD from the first start: ends where exp(−b₂x) is zero to rounding, a stationary point of its own", () => {
    const result = solve(named("BoxBOD"), named("BoxBOD").start1);
    expect(Math.exp(-result.x[1])).toBeLessThan(Number.EPSILON);
    expect(2 * result.cost).toBeGreaterThan(named("BoxBOD").residualSquares * 2);
  });
});
