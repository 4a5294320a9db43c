import type { ForwardModel } from "../../prediction/forwardModel.js";
import type { BeliefSizes } from "../beliefSizes.js";
import type { Unknown } from "../unknown.js";
import { everyFilm } from "./cans.js";
import { roughCurve, scaledCurve } from "./roughCurve.js";

/** What the characterisation missed of each toner of `used`: a rough curve in ln K by geometry, a level in ln S. */
export function tonerUnknowns(
  { set, geometries, coefficients: { size } }: ForwardModel,
  used: readonly number[],
  { tonerCurveSd, tonerScatteringSd }: BeliefSizes,
): readonly Unknown[] {
  const { count } = set.grid;
  const unit = roughCurve(set.grid);
  return used.flatMap((toner): readonly Unknown[] => {
    const { misfit = 1 } = set.toners[toner];
    const curves = geometries.flatMap((_, g) => scaledCurve(unit, tonerCurveSd * misfit, g * count));
    const level = new Float64Array(size).fill(tonerScatteringSd * misfit);
    const levels = tonerScatteringSd === 0 ? [] : [{ from: 0, shape: level }];
    const moving = (field: "k" | "s") => (one: { readonly from: number; readonly shape: Float64Array }) => ({
      owner: "toner" as const,
      effects: [{ field, toner, ...one, share: everyFilm }],
    });
    return [...curves.map(moving("k")), ...levels.map(moving("s"))];
  });
}
