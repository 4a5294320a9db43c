import { colourCount, type ForwardModel } from "./forwardModel.js";

/** Steps of work (see `createWork`) in one `evaluate`: counted once, by its inner loops. */
export function evaluationSteps(model: ForwardModel): number {
  const { toners, size } = model.coefficients;
  return size * (2 * toners + 25) + colourCount(model) * (3 * model.set.grid.count + 150);
}

/** The same of one `differentiate` by `toners` toners. */
export function gradientSteps(model: ForwardModel, toners: number): number {
  const { size } = model.coefficients;
  return size * (2 * toners + 25) + colourCount(model) * (toners * (3 * model.set.grid.count + 10) + 60);
}
