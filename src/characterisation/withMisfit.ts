import { type Belief, beliefOf } from "../belief/belief.js";
import { BADLY_BEHAVED_SIZES } from "../belief/beliefSizes.js";
import { spreadOfFilm } from "../belief/spread.js";
import { ciede2000 } from "../colorimetry/ciede2000.js";
import { type Lab, labFromXyz } from "../colorimetry/lab.js";
import type { TristimulusWeights } from "../colorimetry/weights.js";
import { xyzFromReflectance } from "../colorimetry/xyz.js";
import { sum } from "../core/sum.js";
import { createForwardModel } from "../forward/forwardModel.js";
import { dot } from "../numeric/linear/dot.js";
import { choleskyInPlace, solveLower } from "../numeric/linear/triangularSolve.js";
import type { TonerSet } from "../toners/tonerSet.js";
import type { CheckedJob } from "./job.js";
import type { Film, Observations } from "./observations.js";

/** A film whose fields differ by no more than this, ΔE00, counts as opaque; the belief knows opaque films alone. */
const HIDES = 1;
/** χ² of three colours beyond 99 %: one spoilt film must not speak for all. */
const MOST_CHI_SQUARE = 11.3;
/** Weight, in films, of the line's misfit in that of a toner; a line with fewer judged films gets no misfit. */
const PRIOR_FILMS = 2;
/** L*, a*, b*. */
const COLOURS = 3;

/**
 * The toner set with its misfits: how far the model is off on hiding films that it was not shown, in units of what
 * `BADLY_BEHAVED_SIZES` expect. Of film f: χ² = dᵀC⁻¹d, d the Lab read less the Lab predicted without the film, C what the
 * belief expects beforehand, of the cans nothing: the film was made from them. Of the line s² = mean of min(χ², 11.3)/3,
 * of toner j sⱼ² = (6s² + Σ min(χ², 11.3))/(6 + 3nⱼ) over the nⱼ films that hold it. As it was where fewer than two films
 * tell.
 */
export function withMisfit(
  set: TonerSet,
  viewing: CheckedJob["viewing"],
  weights: TristimulusWeights,
  observations: Observations,
  leftOut: readonly (Float64Array | undefined)[],
): TonerSet {
  const belief = priorOf(set, viewing);
  const labOf = (reflectance: Float64Array): Lab =>
    labFromXyz(xyzFromReflectance(reflectance, weights), weights.white);
  const judged = observations.films.flatMap((film, f) => {
    // Films sprayed otherwise on purpose tell of spraying, not of K and S.
    if (film.spray !== "as the ladder") return [];
    const squares = set.surfaces.flatMap((_, geometry) => {
      const off = labOff(observations, { film: f, geometry }, leftOut, labOf);
      return off === undefined ? [] : chiSquareOf(belief, film, geometry, off);
    });
    if (squares.length === 0) return [];
    return [{ film, square: Math.min(sum(squares) / squares.length, MOST_CHI_SQUARE) }];
  });
  if (judged.length < PRIOR_FILMS) return set;
  const line = sum(judged.map(({ square }) => square)) / (COLOURS * judged.length);
  const toners = set.toners.map((toner, j) => {
    const own = judged.filter(({ film }) => film.toners.includes(j)).map(({ square }) => square);
    const squared = (COLOURS * PRIOR_FILMS * line + sum(own)) / (COLOURS * (PRIOR_FILMS + own.length));
    return { ...toner, misfit: Math.sqrt(squared) };
  });
  return { ...set, misfit: Math.sqrt(line), toners };
}

/** What is believed of films before any is seen, the cans being those that were characterised. */
function priorOf(set: TonerSet, { observer, illuminants: [first] }: CheckedJob["viewing"]): Belief {
  const count = set.toners.length;
  const asMade = { ...set, toners: set.toners.map((toner) => ({ ...toner, strength: 1, misfit: 1 })) };
  const geometries = set.surfaces.map(({ geometry }) => geometry);
  const model = createForwardModel(asMade, { observer, illuminants: [first] }, geometries);
  const known = { logStrength: new Float64Array(count), covariance: new Float64Array(count * count) };
  return beliefOf({ model, ...known, sizes: BADLY_BEHAVED_SIZES }, []);
}

/** Lab read less Lab predicted, the mean over the backings of a film; nothing where it does not hide or was not predicted. */
function labOff(
  { readings }: Observations,
  of: { readonly film: number; readonly geometry: number },
  leftOut: readonly (Float64Array | undefined)[],
  labOf: (reflectance: Float64Array) => Lab,
): Float64Array | undefined {
  const seen = readings.flatMap(({ film, geometry, measured, backing }, r) => {
    const predicted = leftOut[r];
    if (film !== of.film || geometry !== of.geometry || predicted === undefined) return [];
    return [{ read: labOf(measured), predicted: labOf(predicted), isOpaque: backing === undefined }];
  });
  const isAlike = seen.length > 1 && seen.every(({ read }) => ciede2000(read, seen[0].read) <= HIDES);
  if (!isAlike && !seen.some(({ isOpaque }) => isOpaque)) return undefined;
  return Float64Array.from(
    { length: COLOURS },
    (_, i) => sum(seen.map(({ read, predicted }) => read[i] - predicted[i])) / seen.length,
  );
}

/** dᵀC⁻¹d; nothing where the model has no colour for the film. */
function chiSquareOf(belief: Belief, film: Film, geometry: number, off: Float64Array): readonly number[] {
  const grams = new Float64Array(belief.prior.logStrength.length);
  film.toners.forEach((j, i) => {
    grams[j] = 100 * film.shares[i];
  });
  const { lab, covariance } = spreadOfFilm(belief, grams, new Float64Array(grams.length));
  const at = COLOURS * geometry;
  const own = Float64Array.from(
    { length: COLOURS * COLOURS },
    (_, i) => covariance[(at + Math.floor(i / COLOURS)) * lab.length + at + (i % COLOURS)],
  );
  if (!choleskyInPlace(own, 0, COLOURS)) return [];
  const scaled = off.slice();
  solveLower(own, COLOURS, scaled, 0, 1);
  return [dot(scaled, scaled)];
}
