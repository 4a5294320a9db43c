import { tristimulusWeights } from "../colorimetry/weights.js";
import { rangeWarnings } from "../prediction/readingWarnings.js";
import type { Characterisation, CharacterisationMethod } from "./characterisation.js";
import { characterisationWarnings } from "./characterisationWarnings.js";
import { fitJointly } from "./fitJointly.js";
import { type CharacterisationJob, type CheckedJob, checkCharacterisationJob } from "./job.js";
import { leaveOneOut } from "./leaveOneOut.js";
import { modelReflectances } from "./linearise.js";
import { nextMeasurements } from "./nextMeasurements.js";
import { type Observations, observe } from "./observations.js";
import { posteriorAt, withNoiseScale } from "./posterior.js";
import { rankAt } from "./rank.js";
import { sampleQuality } from "./sampleQuality.js";
import { densityEstimates, surfaceEstimates } from "./sharedEstimates.js";
import { startLinear } from "./startLinear.js";
import { tonerQuality } from "./tonerQuality.js";
import { tonerSetAt } from "./tonerSetAt.js";
import { uncertaintyModes } from "./uncertaintyModes.js";
import { layOutUnknowns, surfacesAt, type Unknowns } from "./unknowns.js";

/** How far a characterisation has come. */
export interface Progress {
  readonly stage: "fitting" | "leaving one out" | "advising";
  /** Of the iteration, or of the sample left out. */
  readonly detail: string;
}

/**
 * K and S of toners from readings of films of known composition: a linear stage over all ladders at once, then a
 * joint fit of ln K, ln S and whatever else is unknown (see `CharacterisationOptions`) to the reflectances themselves;
 * the sd of the readings is scaled to what the residuals show and the fit made final with it. Opaque and translucent
 * films, over any backings, may be mixed. What cannot be told is named in `quality`, not refused.
 * Throws InputError with code and place for a job that cannot be read. Sources: docs/theory.md.
 */
export function characterise(
  job: CharacterisationJob,
  onProgress: (progress: Progress) => void = () => {},
): Characterisation {
  const checked = checkCharacterisationJob(job);
  const stated = observe(checked);
  const unknowns = layOutUnknowns(stated);
  const fit = fitInStages(stated, unknowns, onProgress);
  const { point, observations, noiseScale } = fit;

  const posterior = posteriorAt(observations, unknowns, point);
  const held =
    unknowns.surface.length > 0 ? posteriorAt(observations, unknowns, point, "as fitted") : posterior;
  const { variance } = posterior.variances;
  const fitted = { ...checked, surfaces: surfacesAt(checked.surfaces, unknowns, point.border) };
  const [{ name: illuminant }] = checked.viewing.illuminants;
  const { observer } = checked.viewing;
  const weights = tristimulusWeights({ grid: checked.grid, illuminant, observer });
  const { modes, leftOut } = uncertaintyModes(observations, unknowns, point, held.factor, weights);
  const quality = tonerQuality(fitted, observations, unknowns, point, held.variances.variance);
  const samples = sampleQuality(fitted, stated, unknowns, weights, {
    predicted: modelReflectances(observations, unknowns, point),
    leftOut:
      checked.options.leaveOneOut === "none"
        ? []
        : leaveOneOut(observations, unknowns, point, (detail) => {
            onProgress({ stage: "leaving one out", detail });
          }),
    point,
    variance,
  });
  const densities = densityEstimates(checked, unknowns, point, variance);
  const surfaces = surfaceEstimates(checked, unknowns, point, variance);
  if (checked.candidates.length > 0) {
    onProgress({ stage: "advising", detail: `${checked.candidates.length} candidates` });
  }
  const { rank, unknowns: count, condition } = rankAt(observations, unknowns, point);
  return {
    format: "masstone/characterisation",
    version: 1,
    method: methodOf(checked),
    basis: BASES[unknowns.gauge],
    toners: tonerSetAt(fitted, unknowns, point, modes),
    quality,
    samples,
    rank,
    unknowns: count,
    condition,
    stopReason: fit.stopReason,
    iterations: fit.iterations,
    ...(surfaces.length > 0 && { surfaceEstimates: surfaces }),
    ...(Object.keys(densities).length > 0 && { densities }),
    ...(Number.isFinite(posterior.noiseScale) && { noiseScale }),
    nextMeasurements: nextMeasurements(checked, noiseScale, unknowns, point),
    warnings: [
      ...rangeWarnings(checked.grid),
      ...characterisationWarnings(fitted, {
        quality,
        surfaces,
        modesLeftOut: leftOut,
        stopReason: fit.stopReason,
      }),
    ],
  };
}

const BASES = {
  "mean film": "per-film",
  "reference toner": "relative",
  "measured thickness": "per-micrometre",
} as const;

/** The linear stage, and the joint fit before and after the noise is known. */
function fitInStages(stated: Observations, unknowns: Unknowns, onProgress: (progress: Progress) => void) {
  const { refine, maxIterations } = stated.options;
  const start = startLinear(stated, unknowns);
  const report = (iteration: number) => {
    onProgress({ stage: "fitting", detail: `iteration ${iteration}` });
  };
  const first =
    refine === "none"
      ? { point: start, iterations: 0, stopReason: "linear" }
      : fitJointly(stated, unknowns, start, { maxIterations, costTolerance: ROUGH }, report);
  const found = posteriorAt(stated, unknowns, first.point).noiseScale;
  // Readings without noise leave residuals of rounding alone; a scale of nothing would make the fit rigid.
  const noiseScale = Number.isFinite(found) ? Math.max(found, LEAST_NOISE) : 1;
  const observations = withNoiseScale(stated, noiseScale);
  if (refine === "none") return { ...first, observations, noiseScale };
  const last = fitJointly(observations, unknowns, first.point, { maxIterations }, report);
  return { ...last, iterations: first.iterations + last.iterations, observations, noiseScale };
}

const LEAST_NOISE = 1e-3;
/** The first fit only has to say how large the residuals are. */
const ROUGH = 1e-4;

/** What decided: the refinement over all, or the kind of readings that the linear stage had. */
function methodOf({ options, samples, toners }: CheckedJob): CharacterisationMethod {
  if (options.refine === "joint") return "joint";
  const finite = samples.filter(({ readings }) => readings.some(({ backing }) => backing !== undefined));
  if (finite.length === samples.length) return "two-backings";
  return finite.length === 0 && samples.length <= 2 * toners.length - 1 ? "masstone-and-tint" : "ladders";
}
