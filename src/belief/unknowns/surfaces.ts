import type { ForwardModel } from "../../forward/forwardModel.js";
import type { BeliefSizes } from "../beliefSizes.js";
import type { Unknown } from "../unknown.js";
import { everyFilm } from "./cans.js";

/** A surface with a k2 above this is taken as given. */
const MOST_K2 = 0.9;

/** Of each geometry k2, and its rise from dark paint to light: no surface has one k2 for all films. */
export function surfaceUnknowns(
  { set, geometries, surfaces }: ForwardModel,
  { k2Sd, k2RiseSd }: BeliefSizes,
): readonly Unknown[] {
  const { count } = set.grid;
  const of = (field: "k2" | "rise", sd: number, g: number): readonly Unknown[] => {
    if (sd === 0 || surfaces[g].k2 > MOST_K2) return [];
    const shape = new Float64Array(count).fill(sd);
    return [{ owner: "surface", effects: [{ field, toner: -1, from: g * count, shape, share: everyFilm }] }];
  };
  return geometries.flatMap((_, g) => [...of("k2", k2Sd, g), ...of("rise", k2RiseSd, g)]);
}
