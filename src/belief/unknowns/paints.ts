import type { ForwardModel } from "../../forward/forwardModel.js";
import type { BeliefSizes } from "../beliefSizes.js";
import type { Film } from "../film.js";
import type { Unknown } from "../unknown.js";
import { roughCurve } from "./roughCurve.js";

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
  const curves =
    paintCurveSd === 0 ? [] : geometries.flatMap((_, g) => unit.map((shape) => ({ from: g * count, shape })));
  const level = new Float64Array(size).fill(companySd);
  const levels = companySd === 0 ? [] : used;
  return places.flatMap((kin): readonly Unknown[] => {
    const share = ({ kinship }: Film) => kinship[kin];
    const ofCurve = (film: Film) => paintCurveSd * share(film);
    return [
      ...curves.map((curve) => ({
        owner: "pot" as const,
        effects: [{ field: "ratio" as const, toner: -1, ...curve, share: ofCurve }],
      })),
      ...levels.map((toner) => ({
        owner: "pot" as const,
        effects: [{ field: "strength" as const, toner, from: 0, shape: level, share }],
      })),
    ];
  });
}
