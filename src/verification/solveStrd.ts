import {
  type LevenbergMarquardtResult,
  levenbergMarquardt,
} from "../numeric/leastSquares/levenbergMarquardt.js";
import type { StrdProblem } from "./data/strdProblems.js";
import { differentiate } from "./dual.js";
import { STRD_MODELS } from "./strdModels.js";

/** Fits a NIST StRD problem from a start, with exact derivatives. Nelson's model is of the logarithm of y. */
export function solveStrd(
  { name, y, x, x2 }: StrdProblem,
  start: readonly number[],
): LevenbergMarquardtResult {
  const predict = STRD_MODELS[name];
  const observed = name === "Nelson" ? y.map(Math.log) : y;
  const model = differentiate((b) => observed.map((value, i) => predict(b, x[i], x2?.[i] ?? 0).minus(value)));
  return levenbergMarquardt(
    { residualCount: y.length, start, ...model },
    { maxIterations: 1000, costTolerance: 1e-16 },
  );
}
