import type { ForwardModel } from "../../prediction/forwardModel.js";
import type { BeliefSizes } from "../beliefSizes.js";
import type { Film } from "../film.js";
import type { Unknown } from "../unknown.js";
import { roughCurve, scaledCurve } from "./roughCurve.js";

/**
 * What is peculiar to a paint, shared by others by their kinship: a rough curve in ln(K/S) by geometry, and, on badly
 * behaved paint, a strength of each toner that depends on its company. One set for every film in `places`.
 */
export function paintUnknowns(
  { set, geometries, coefficients: { size } }: ForwardModel,
  { places, used }: { readonly places: readonly number[]; readonly used: readonly number[] },
  { paintCurveSd, companySd }: BeliefSizes,
): readonly Unknown[] {
  const { count } = set.grid;
  const unit = roughCurve(set.grid);
  const curves = geometries.flatMap((_, g) => scaledCurve(unit, paintCurveSd, g * count));
  const level = new Float64Array(size).fill(companySd);
  const levels = companySd === 0 ? [] : used;
  return places.flatMap((kin): readonly Unknown[] => {
    const share = ({ kinship }: Film) => kinship[kin];
    return [
      ...curves.map((curve) => ({
        owner: "pot" as const,
        effects: [{ field: "ratio" as const, toner: -1, ...curve, share }],
      })),
      ...levels.map((toner) => ({
        owner: "pot" as const,
        effects: [{ field: "strength" as const, toner, from: 0, shape: level, share }],
      })),
    ];
  });
}
