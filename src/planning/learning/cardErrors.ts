import { film, overBacking } from "../../optics/film.js";
import { absorptionRatio } from "../../optics/infiniteFilm.js";
import { usableInternal } from "../../prediction/anchor.js";
import type { Grid } from "../../spectra/grid.js";
import { measuredSlope, type SurfaceTerms } from "../../surface/saunderson.js";
import type { LearningOptions } from "./learningOptions.js";

/** A primer of middle shade, as internal reflectance. */
const PRIMER = 0.4;

/**
 * How a card's reflectance may be off by itself, each pattern one standard deviation long: gloss (a level), the gun and
 * the calibration of the instrument (all of R in proportion, and tilted along the wavelengths), and film build: what a
 * film of the card's K/S and of S·X = `filmScattering` over primer would lose if it were thinner by `filmBuildSd`.
 * Only pale paint shows its primer.
 */
export function cardErrors(
  reflectance: Float64Array,
  surfaces: readonly SurfaceTerms[],
  { count }: Grid,
  { cardReflectanceSd, cardGainSd, cardTiltSd, filmScattering, filmBuildSd }: LearningOptions,
): readonly Float64Array[] {
  const thinner = filmScattering * Math.exp(-filmBuildSd);
  return surfaces.flatMap((surface, g) => {
    const pattern = (of: (measured: number, place: number) => number) =>
      reflectance.map((measured, i) =>
        Math.floor(i / count) === g ? of(measured, (2 * (i % count)) / (count - 1) - 1) : 0,
      );
    return [
      pattern(() => cardReflectanceSd),
      pattern((measured) => cardGainSd * measured),
      pattern((measured, place) => cardTiltSd * measured * place),
      pattern((measured) => {
        const internal = usableInternal(measured, surface);
        const ratio = absorptionRatio(internal);
        const at = (depth: number) => overBacking(film(ratio, 1, depth), PRIMER);
        return (at(thinner) - at(filmScattering)) * measuredSlope(internal, surface);
      }),
    ];
  });
}
