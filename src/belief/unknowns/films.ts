import { usableInternal } from "../../forward/anchor.js";
import type { ForwardModel } from "../../forward/forwardModel.js";
import { film as filmOn, overBacking } from "../../optics/film.js";
import { absorptionRatio } from "../../optics/infiniteFilm.js";
import { measuredSlope } from "../../surface/saunderson.js";
import type { Repeated } from "../../toners/learntStrengths.js";
import type { BeliefSizes } from "../beliefSizes.js";
import type { Field, Unknown } from "../unknown.js";

/** A primer of middle shade, as internal reflectance. */
const PRIMER = 0.4;

/**
 * What is a film's own, by geometry: gloss (a level of reflectance), gun and calibration (a share of all reflectance, and
 * one that tilts along the wavelengths), and film build: what a film of its K/S and of S·X = `filmScattering` over primer
 * loses if it is thinner by `filmBuildSd`. `reflectance` is what it reads, or is expected to.
 */
export function filmUnknowns(
  { surfaces, set }: ForwardModel,
  { place, reflectance }: { readonly place: number; readonly reflectance: Float64Array },
  sizes: BeliefSizes,
): readonly Unknown[] {
  const { filmBuildSd, filmScattering } = sizes;
  const { count } = set.grid;
  const thinner = filmScattering * Math.exp(-filmBuildSd);
  return surfaces.flatMap((surface, g): readonly Unknown[] => {
    const from = g * count;
    const of = (
      field: Field,
      repeats: Repeated,
      height: (band: number) => number,
      sd = sizes[repeats],
    ): readonly Unknown[] => {
      if (sizes[repeats] === 0) return [];
      const shape = Float64Array.from({ length: count }, (_, b) => sd * height(b));
      const share = (film: { readonly place: number }) => (film.place === place ? 1 : 0);
      return [{ owner: "film", repeats, effects: [{ field, toner: -1, from, shape, share }] }];
    };
    const showing = (b: number) => {
      const internal = usableInternal(reflectance[from + b], surface);
      const ratio = absorptionRatio(internal);
      const at = (depth: number) => overBacking(filmOn(ratio, 1, depth), PRIMER);
      return (at(thinner) - at(filmScattering)) * measuredSlope(internal, surface);
    };
    return [
      ...of("offset", "offsetSd", () => 1),
      ...of("gain", "gainSd", () => 1),
      ...of("gain", "tiltSd", (b) => (2 * b) / (count - 1) - 1),
      ...of("offset", "filmBuildSd", showing, 1),
    ];
  });
}
