import type { ForwardModel } from "../../prediction/forwardModel.js";
import type { BeliefSizes } from "../beliefSizes.js";
import type { Film } from "../film.js";
import type { Unknown } from "../unknown.js";

/** Flake that white tilts: x rises by about this much times the share of white (a world of other physics has 1.5). */
const WHITE_TILT_SD = 1;

/**
 * How the flakes of films lie, as ln width of their tilts against the ladder's: the gun of a job against that of the
 * ladder, what white in the pot does to them, and of each film in `places` how far spraying repeats. Nothing for a pot
 * without a toner whose orientation is known.
 */
export function sprayUnknowns(
  { set, orientation, coefficients: { size } }: ForwardModel,
  {
    places,
    used,
    shared,
  }: { readonly places: readonly number[]; readonly used: readonly number[]; readonly shared: boolean },
  { spraySd, sprayRepeatSd }: BeliefSizes,
): readonly Unknown[] {
  if (!used.some((j) => orientation[j])) return [];
  const shape = new Float64Array(size).fill(1);
  const of = (share: (film: Film) => number): Unknown => ({
    owner: "film",
    effects: [{ field: "flakeTilt", toner: -1, from: 0, shape, share }],
  });
  const white = [...set.toners.keys()].filter((j) => set.toners[j].role === "white");
  const shareOfWhite = ({ grams }: Film) => {
    const total = grams.reduce((sum, amount) => sum + amount, 0);
    return white.reduce((sum, j) => sum + grams[j], 0) / total;
  };
  return [
    ...(shared && spraySd > 0 ? [of(() => spraySd)] : []),
    ...(shared && white.length > 0 ? [of((film) => WHITE_TILT_SD * shareOfWhite(film))] : []),
    ...(sprayRepeatSd > 0
      ? places.map((place) => of((film) => (film.place === place ? sprayRepeatSd : 0)))
      : []),
  ];
}
