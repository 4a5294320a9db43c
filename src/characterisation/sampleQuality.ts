import { ciede2000 } from "../colorimetry/ciede2000.js";
import { labFromXyz } from "../colorimetry/lab.js";
import type { TristimulusWeights } from "../colorimetry/weights.js";
import { xyzFromReflectance } from "../colorimetry/xyz.js";
import type { Estimate, SampleQuality } from "./characterisation.js";
import type { CheckedJob } from "./job.js";
import type { Observations } from "./observations.js";
import type { Point, Unknowns } from "./unknowns.js";

/** A sample is named whose residuals are this many times those of the sample in the middle… */
const OUTLYING = 3;
/** …or of this share of the stated noise, if that is more. */
const QUIET = 0.5;

/** What the fit says of every reading. */
export interface Fitted {
  readonly predicted: readonly Float64Array[];
  /** The same without the sample in the fit; `undefined` where it was not asked for or nothing can be said. */
  readonly leftOut: readonly (Float64Array | undefined)[];
  readonly point: Point;
  readonly variance: Float64Array;
}

/** Residuals, colour differences and thickness of every sample; those that stand out are named, and were used. */
export function sampleQuality(
  job: CheckedJob,
  observations: Observations,
  unknowns: Unknowns,
  weights: TristimulusWeights,
  { predicted, leftOut, point, variance }: Fitted,
): readonly SampleQuality[] {
  const lab = (reflectance: ArrayLike<number>) =>
    labFromXyz(xyzFromReflectance(reflectance, weights), weights.white);
  const rms = job.samples.map((_, film) => misfitOf(observations, predicted, film));
  const median = [...rms].sort((a, b) => a - b)[rms.length >> 1];
  let next = 0;
  return job.samples.map(({ name, readings, thickness }, film) => {
    const first = next;
    next += readings.length;
    const place = unknowns.thickness[film];
    const estimate: Estimate | undefined =
      place >= 0
        ? {
            value: Math.exp(point.border[place]),
            sdOfLog: Math.sqrt(variance[unknowns.cells * unknowns.size + place]),
          }
        : thickness === undefined
          ? undefined
          : { value: thickness, sdOfLog: 0 };
    const isOutlier = rms[film] > OUTLYING * Math.max(median, QUIET);
    const times = (rms[film] / median).toFixed(1);
    return {
      name,
      readings: readings.map(({ geometry, backing, backingName, reflectance }, i) => {
        const without = leftOut[first + i];
        return {
          geometry,
          backing: backing === undefined ? "opaque" : (backingName ?? `backing ${i + 1}`),
          measured: Array.from(reflectance),
          predicted: Array.from(predicted[first + i]),
          deltaE00: ciede2000(lab(reflectance), lab(predicted[first + i])),
          ...(without && { deltaE00LeftOut: ciede2000(lab(reflectance), lab(without)) }),
        };
      }),
      ...(estimate && { thickness: estimate }),
      ...(isOutlier && {
        outlier: `it misses its readings ${times} times as far as the sample in the middle: weighed, stirred or read wrongly, or not a mix of these toners`,
      }),
    };
  });
}

/** RMS of the residuals of a film in units of σ_R as stated. */
function misfitOf({ readings }: Observations, predicted: readonly Float64Array[], film: number): number {
  let squares = 0;
  let count = 0;
  readings.forEach((reading, r) => {
    if (reading.film !== film) return;
    reading.measured.forEach((measured, band) => {
      squares += ((measured - predicted[r][band]) * reading.weight[band]) ** 2;
      count++;
    });
  });
  return Math.sqrt(squares / count);
}
