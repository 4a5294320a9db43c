import type { Work } from "../core/createWork.js";
import { sum } from "../core/sum.js";
import { fitJointly } from "./fitJointly.js";
import { modelReflectances } from "./linearise.js";
import type { Observations } from "./observations.js";
import { createReadingModel, createRow } from "./readingModel.js";
import type { Point, Unknowns } from "./unknowns.js";

/** From the answer of all samples, the fit without one of them is a few steps away. */
const LIMITS = { maxIterations: 15, costTolerance: 1e-4 };
const THICKNESS_STEPS = 30;

/** What leaving out may take, and who hears of every sample. */
export interface LeavingOut {
  readonly work: Work;
  readonly onSample?: (name: string) => void;
}

/**
 * Every reading as predicted by a fit without its sample, from the masses weighed. A thickness that was not measured
 * is fitted to the sample's own reading over the darkest backing, so that the others are what is judged. `undefined`
 * for a sample that alone holds one of its toners (without it nothing is known of that toner), and with no work left.
 */
export function leaveOneOut(
  observations: Observations,
  unknowns: Unknowns,
  point: Point,
  { work, onSample = () => {} }: LeavingOut,
): readonly (Float64Array | undefined)[] {
  const predicted: (Float64Array | undefined)[] = observations.readings.map(() => undefined);
  observations.films.forEach((film, f) => {
    const isAlone = (toner: number) =>
      observations.films.every((other, o) => o === f || !other.toners.includes(toner));
    if (film.toners.some(isAlone) || work.isSpent()) return;
    onSample(film.name);
    const fit = fitJointly(withoutFilm(observations, f), unknowns, point, { ...LIMITS, work });
    const reflectances = predictLeftOut(observations, unknowns, fit.point, f);
    observations.readings.forEach((reading, r) => {
      if (reading.film === f) predicted[r] = reflectances[r];
    });
  });
  return predicted;
}

/** The same observations, those of one film without weight: its unknowns are left to their priors. */
function withoutFilm(observations: Observations, film: number): Observations {
  return {
    ...observations,
    readings: observations.readings.map((reading) =>
      reading.film === film ? { ...reading, weight: new Float64Array(reading.weight.length) } : reading,
    ),
  };
}

function predictLeftOut(
  observations: Observations,
  unknowns: Unknowns,
  point: Point,
  film: number,
): readonly Float64Array[] {
  const border = point.border.slice();
  const place = unknowns.thickness[film];
  if (place >= 0) border[place] = thicknessFromDarkest(observations, unknowns, { ...point, border }, film);
  return modelReflectances(observations, unknowns, { ...point, border });
}

/**
 * ln thickness by Gauss–Newton on one reading, with the prior of the thickness. All bands count as one observation:
 * a colour that the other samples predict wrongly is wrong at all of them, and must not pass for thickness.
 */
function thicknessFromDarkest(
  observations: Observations,
  unknowns: Unknowns,
  point: Point,
  film: number,
): number {
  const over = ({ backing }: { readonly backing?: Float64Array }) =>
    backing === undefined ? Number.POSITIVE_INFINITY : sum(backing);
  const [darkest] = observations.readings.filter((r) => r.film === film).sort((a, b) => over(a) - over(b));
  const place = unknowns.thickness[film];
  const weight = unknowns.priorWeight[place] ** 2;
  const row = createRow(unknowns);
  for (let step = 0; step < THICKNESS_STEPS; step++) {
    const model = createReadingModel(observations, unknowns, point);
    let curvature = weight;
    let slope = weight * (point.border[place] - unknowns.priorMean[place]);
    for (let band = 0; band < observations.grid.count; band++) {
      model(darkest, band, row);
      for (let i = 0; i < row.borderCount; i++) {
        if (row.borderPlaces[i] !== place) continue;
        const share = darkest.weight[band] ** 2 / darkest.weight.length;
        curvature += share * row.borderSlopes[i] ** 2;
        slope += share * row.borderSlopes[i] * (row.reflectance - darkest.measured[band]);
      }
    }
    point.border[place] -= Math.max(-0.5, Math.min(0.5, slope / curvature));
  }
  return point.border[place];
}
