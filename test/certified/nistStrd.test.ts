import { describe, expect, it } from "vitest";
import { STRD_PROBLEMS } from "../../src/verification/data/strdProblems.js";
import { solveStrd } from "../../src/verification/solveStrd.js";
import { STRD_UNSOLVED_FROM_FIRST_START } from "../../src/verification/strdChecks.js";

/** Equal significant digits: the "log relative error" of NIST. */
const digits = (value: number, certified: number) => -Math.log10(Math.abs(value / certified - 1) + 1e-16);

const worstDigits = (found: Float64Array, certified: readonly number[]) =>
  Math.min(...certified.map((value, j) => digits(found[j], value)));

/** Its certified sum of squares, 1.4e-25, is below what residuals of doubles near 1 can show. */
const BELOW_ROUNDING = "Lanczos1";

describe.each(STRD_PROBLEMS)("levenbergMarquardt, NIST StRD (certified, seen): $name", (problem) => {
  const starts: [string, readonly number[]][] = [["second", problem.start2]];
  if (!STRD_UNSOLVED_FROM_FIRST_START.includes(problem.name)) starts.push(["first", problem.start1]);

  it.each(starts)(
    "six digits of every parameter and of the sum of squares, from the %s start",
    (_, start) => {
      const result = solveStrd(problem, start);
      expect(result.converged).toBe(true);
      expect(worstDigits(result.x, problem.certified)).toBeGreaterThan(6);
      if (problem.name === BELOW_ROUNDING) expect(2 * result.cost).toBeLessThan(1e-20);
      else expect(digits(2 * result.cost, problem.residualSquares)).toBeGreaterThan(6);
    },
  );
});

describe("levenbergMarquardt, what it does not solve", () => {
  const named = (name: string) => {
    const problem = STRD_PROBLEMS.find((candidate) => candidate.name === name);
    if (problem === undefined) throw new Error(`${name} is missing`);
    return problem;
  };

  it("MGH10 from the first start: stops at the iteration limit and says so", () => {
    const result = solveStrd(named("MGH10"), named("MGH10").start1);
    expect(result).toMatchObject({ converged: false, stopReason: "iteration-limit" });
  });

  it("BoxBOD from the first start: ends where exp(−b₂x) is zero to rounding, a stationary point of its own", () => {
    const result = solveStrd(named("BoxBOD"), named("BoxBOD").start1);
    expect(Math.exp(-result.x[1])).toBeLessThan(Number.EPSILON);
    expect(2 * result.cost).toBeGreaterThan(named("BoxBOD").residualSquares * 2);
  });
});
