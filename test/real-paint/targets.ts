import type { Film, OpenData } from "./openData.js";
import { textbookDeltaE00 } from "./textbook.js";

/**
 * A film counts as opaque when ΔE00(over black, over white; D65, 10°) ≤ 1 and |R_white − R_black| ≤ 0.05 at every
 * band: the eye sees next to nothing of the backing, and the spectrum shows little of it even where the eye is weak.
 */
export const OPAQUE = Object.freeze({ deltaE00: 1, reflectance: 0.05 });

/** Series 01–03 are eosin lakes, a fluorescent dye: Kubelka and Munk have no say in them. */
export const isFluorescent = ({ sample }: Film): boolean => /^0[123]/.test(sample);

export const isOpaque = ({ overBlack, overWhite, grid }: Film): boolean =>
  textbookDeltaE00(overBlack, overWhite, grid, "D65") <= OPAQUE.deltaE00 &&
  overBlack.every((r, band) => Math.abs(overWhite[band] - r) <= OPAQUE.reflectance);

/** The films that are matched, each by its reading over white. */
export const targetsOf = ({ films }: OpenData): readonly Film[] =>
  films.filter((film) => !isFluorescent(film) && isOpaque(film));

/** The other target that looks most alike under D65. */
export function nearestTo(target: Film, targets: readonly Film[]): Film {
  const distance = (other: Film) => textbookDeltaE00(target.overWhite, other.overWhite, target.grid, "D65");
  return targets
    .filter((other) => other !== target)
    .reduce((nearest, other) => (distance(other) < distance(nearest) ? other : nearest));
}
