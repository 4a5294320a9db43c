import type { DualModel } from "../../src/verification/dual.js";
import { mghModels } from "./mghModels.js";

/**
 * The bounded problems of Hock & Schittkowski (1981), LNEMS 187, that are sums of squares. Starts, bounds and optima
 * are seen in collections that carry them; problem 25 is from memory, and held to its value at the start.
 */
export interface HockSchittkowskiProblem {
  readonly name: string;
  readonly confidence: "seen" | "from memory";
  readonly model: DualModel;
  readonly residualCount: number;
  readonly start: readonly number[];
  readonly startValue: number;
  readonly lower: readonly number[];
  readonly upper: readonly number[];
  readonly x: readonly number[];
  readonly optimum: number;
  /** A second point where no step leads down, documented with the problem: x and the sum of squares. */
  readonly local?: { readonly x: readonly number[]; readonly optimum: number };
}

const none = Number.POSITIVE_INFINITY;

/** Σ(exp(−(uᵢ − x₂)^x₃/x₁) − 0.01i)² */
const problem25: DualModel = ([a, b, c]) =>
  Array.from({ length: 99 }, (_, k) => {
    const fraction = 0.01 * (k + 1);
    const u = 25 + (-50 * Math.log(fraction)) ** (2 / 3);
    return b.times(-1).plus(u).log().times(c).exp().over(a).times(-1).exp().minus(fraction);
  });

export const hockSchittkowskiProblems: readonly HockSchittkowskiProblem[] = [
  {
    name: "HS1",
    confidence: "seen",
    model: mghModels[1],
    residualCount: 2,
    start: [-2, 1],
    startValue: 909,
    lower: [-none, -1.5],
    upper: [none, none],
    x: [1, 1],
    optimum: 0,
  },
  {
    name: "HS2",
    confidence: "seen",
    model: mghModels[1],
    residualCount: 2,
    start: [-2, 1],
    startValue: 909,
    lower: [-none, 1.5],
    upper: [none, none],
    x: [1.2243707487363527, 1.5],
    optimum: 0.0504261879,
    local: { x: [-1.221, 1.5], optimum: 4.941 },
  },
  {
    name: "HS25",
    confidence: "from memory",
    model: problem25,
    residualCount: 99,
    start: [100, 12.5, 3],
    startValue: 32.835,
    lower: [0.1, 0, 0],
    upper: [100, 25.6, 5],
    x: [50, 25, 1.5],
    optimum: 0,
  },
  {
    name: "HS38",
    confidence: "seen",
    model: mghModels[14],
    residualCount: 6,
    start: [-3, -1, -3, -1],
    startValue: 19192,
    lower: [-10, -10, -10, -10],
    upper: [10, 10, 10, 10],
    x: [1, 1, 1, 1],
    optimum: 0,
  },
];
