import { createGradient, differentiate } from "../prediction/differentiate.js";
import { createEvaluation, evaluate } from "../prediction/evaluate.js";
import type { ForwardModel } from "../prediction/forwardModel.js";
import type { Warning } from "../prediction/warning.js";

/** Two toners count as collinear when the cosine between ∂R/∂g of the two is above this (within about 1.8°). */
const COLLINEAR_COSINE = 0.9995;

/** Said of each pair, one of them poured, that moves the reflectance the same way at the mix `grams`. */
export function collinearWarnings(
  model: ForwardModel,
  grams: ArrayLike<number>,
  used: readonly number[],
): readonly Warning[] {
  const { toners, size } = model.coefficients;
  const all = Array.from({ length: toners }, (_, j) => j);
  const at = createEvaluation(model);
  const slopes = createGradient(model);
  evaluate(model, grams, at);
  differentiate(model, at, slopes, all);
  const rows = all.map((j) => slopes.reflectance.subarray(j * size, (j + 1) * size));
  const lengths = rows.map((row) => Math.sqrt(dot(row, row)));

  const { toners: set } = model.set;
  const nameOf = (j: number) => set[j].name ?? set[j].id;
  return used.flatMap((j) =>
    all
      .filter((other) => other !== j && !(used.includes(other) && other < j))
      .filter((other) => dot(rows[j], rows[other]) > COLLINEAR_COSINE * lengths[j] * lengths[other])
      .filter((other) => lengths[other] > 0)
      .map((other) => ({
        code: "collinear-toners" as const,
        message: `${nameOf(j)} and ${nameOf(other)} move the colour the same way here; which of them is poured is not a matter of colour`,
        toners: [set[j].id, set[other].id],
      })),
  );
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}
