import type { Warning } from "../core/warning.js";
import { createGradient, differentiate } from "../forward/differentiate.js";
import { createEvaluation, evaluate } from "../forward/evaluate.js";
import type { ForwardModel } from "../forward/forwardModel.js";
import { dot } from "../numeric/linear/dot.js";

/** Two toners count as collinear when the cosine between ∂R/∂g of the two is above this (within about 1.8°). */
const COLLINEAR_COSINE = 0.9995;

/** ‖∂R/∂g‖ of toner `j` at the mix `grams`. */
export function strengthOf(model: ForwardModel, grams: ArrayLike<number>, j: number): number {
  const at = createEvaluation(model);
  const slopes = createGradient(model);
  const { size } = model.coefficients;
  evaluate(model, grams, at);
  differentiate(model, at, slopes, [j]);
  const row = slopes.reflectance.subarray(j * size, (j + 1) * size);
  return Math.sqrt(dot(row, row));
}

/** The toners that move the reflectance the same way as toner `j` at the mix `grams`. */
export function alikeToners(model: ForwardModel, grams: ArrayLike<number>, j: number): readonly number[] {
  const { toners, size } = model.coefficients;
  const all = Array.from({ length: toners }, (_, i) => i);
  const at = createEvaluation(model);
  const slopes = createGradient(model);
  evaluate(model, grams, at);
  differentiate(model, at, slopes, all);
  const rows = all.map((i) => slopes.reflectance.subarray(i * size, (i + 1) * size));
  const lengths = rows.map((row) => Math.sqrt(dot(row, row)));
  return all.filter(
    (other) =>
      other !== j &&
      lengths[other] > 0 &&
      dot(rows[j], rows[other]) > COLLINEAR_COSINE * lengths[j] * lengths[other],
  );
}

/** Said of each toner poured for which others would do: they move the reflectance the same way at the mix `grams`. */
export function collinearWarnings(
  model: ForwardModel,
  grams: ArrayLike<number>,
  used: readonly number[],
): readonly Warning[] {
  const groups = used.map((j) => [j, ...alikeToners(model, grams, j)]);
  return groups
    .filter(
      (group, i) => group.length > 1 && !groups.slice(0, i).some((earlier) => earlier.includes(group[0])),
    )
    .map((group) => {
      const named = group.map((j) => model.set.toners[j]);
      const names = named.map(({ id, name = id }) => name).join(", ");
      return {
        code: "collinear-toners",
        message: `${names} move the colour the same way here; which of them is poured is not a matter of colour`,
        toners: named.map(({ id }) => id),
      };
    });
}
