import { tristimulusWeights } from "../colorimetry/weights.js";
import type { Work } from "../core/createWork.js";
import { WORK_DEFAULTS, type WorkOptions, workFor, workWarnings } from "../core/workOptions.js";
import { rangeWarnings } from "../scene/readingWarnings.js";
import type { Characterisation, CharacterisationMethod } from "./characterisation.js";
import { characterisationWarnings } from "./characterisationWarnings.js";
import { fitJointly } from "./fitJointly.js";
import { type CharacterisationJob, type CheckedJob, checkCharacterisationJob } from "./job.js";
import { leaveOneOut } from "./leaveOneOut.js";
import { misfitAt, modelReflectances } from "./linearise.js";
import { nextMeasurements } from "./nextMeasurements.js";
import { type Observations, observe } from "./observations.js";
import { type Posterior, posteriorAt, withNoiseScale } from "./posterior.js";
import { rankAt } from "./rank.js";
import { sampleQuality } from "./sampleQuality.js";
import { densityEstimates, surfaceEstimates } from "./sharedEstimates.js";
import { startLinear } from "./startLinear.js";
import { tonerQuality } from "./tonerQuality.js";
import { tonerSetAt } from "./tonerSetAt.js";
import { uncertaintyModes } from "./uncertaintyModes.js";
import { layOutUnknowns, type Point, surfacesAt, type Unknowns } from "./unknowns.js";
import { withBrightness } from "./withBrightness.js";
import { withMisfit } from "./withMisfit.js";

/** A minute or two: a characterisation is made once for years. */
const CHARACTERISATION_WORK: Required<WorkOptions> = Object.freeze({
  ...WORK_DEFAULTS,
  maxWork: 1e11,
});

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
 * films, over any backings, may be mixed. What cannot be told is named in `quality`, not refused;
 * what the work allowed did not suffice for is said.
 * Throws InputError with code and place for a job that cannot be read. Sources: Duncan 1940;
 * Walowit, McCarthy & Berns 1987; Marquardt 1963.
 */
export function characterise(
  job: CharacterisationJob,
  onProgress: (progress: Progress) => void = () => {},
  limits: WorkOptions = {},
): Characterisation {
  const work = workFor(limits, CHARACTERISATION_WORK);
  const checked = withBrightness(checkCharacterisationJob(job));
  const stated = observe(checked);
  const unknowns = layOutUnknowns(stated);
  const fit = fitInStages(stated, unknowns, onProgress, work);
  const isFitCut = work.isSpent();
  const { point, observations, posterior, noiseScale } = fit;
  const held =
    unknowns.surface.length > 0 ? posteriorAt(observations, unknowns, point, "as fitted") : posterior;
  const { variance } = posterior.variances;
  const fitted = { ...checked, surfaces: surfacesAt(checked.surfaces, unknowns, point.border) };
  const [{ name: illuminant }] = checked.viewing.illuminants;
  const { observer } = checked.viewing;
  const weights = tristimulusWeights({ grid: checked.grid, illuminant, observer });
  const { modes, leftOut: modesLeftOut } = uncertaintyModes(
    observations,
    unknowns,
    point,
    held.factor,
    weights,
  );
  const quality = tonerQuality(fitted, observations, unknowns, point, held.variances.variance);
  const leftOut =
    checked.options.leaveOneOut === "none"
      ? []
      : leaveOneOut(observations, unknowns, point, {
          work,
          onSample: (detail) => onProgress({ stage: "leaving one out", detail }),
        });
  const samples = sampleQuality(fitted, stated, unknowns, weights, {
    predicted: modelReflectances(observations, unknowns, point),
    leftOut,
    point,
    variance,
  });
  const densities = densityEstimates(checked, unknowns, point, variance);
  const surfaces = surfaceEstimates(checked, unknowns, point, variance);
  if (checked.candidates.length > 0) {
    onProgress({ stage: "advising", detail: `${checked.candidates.length} candidates` });
  }
  const toners = tonerSetAt(fitted, unknowns, point, modes);
  const { rank, unknowns: count, condition } = rankAt(observations, unknowns, point);
  const next = nextMeasurements(checked, noiseScale, { unknowns, point, work });
  return {
    format: "masstone/characterisation",
    version: 1,
    method: methodOf(checked),
    basis: BASES[unknowns.gauge],
    toners: withMisfit(toners, checked.viewing, weights, observations, leftOut),
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
    nextMeasurements: next,
    warnings: [
      ...rangeWarnings(checked.grid),
      ...characterisationWarnings(fitted, {
        quality,
        surfaces,
        modesLeftOut,
        stopReason: fit.stopReason,
      }),
      ...workWarnings(
        work.isSpent() ? [`${isFitCut ? "the fit, " : ""}samples left out, and candidates`] : [],
      ),
    ],
  };
}

const BASES = {
  "mean film": "per-film",
  "reference toner": "relative",
  "measured thickness": "per-micrometre",
} as const;

interface StagedFit {
  readonly point: Point;
  readonly iterations: number;
  readonly stopReason: string;
  /** With the sd of the readings as the residuals show it. */
  readonly observations: Observations;
  readonly posterior: Posterior;
  readonly noiseScale: number;
}

/**
 * The linear stage, then the joint fit. How large the residuals are decides how much the priors weigh, and the other
 * way round: so the noise is guessed from a rough fit, and the fit repeated until the guess is right to 2 %.
 */
function fitInStages(
  stated: Observations,
  unknowns: Unknowns,
  onProgress: (progress: Progress) => void,
  work: Work,
): StagedFit {
  const { refine, maxIterations } = stated.options;
  const linear = { point: startLinear(stated, unknowns), iterations: 0, stopReason: "linear" };
  const refined = (
    observations: Observations,
    from: typeof linear,
    costTolerance?: number,
  ): typeof linear => {
    if (refine === "none") return from;
    const fit = fitJointly(
      observations,
      unknowns,
      from.point,
      { maxIterations, costTolerance, work },
      (iteration) => {
        onProgress({ stage: "fitting", detail: `iteration ${from.iterations + iteration}` });
      },
    );
    return { ...fit, iterations: from.iterations + fit.iterations };
  };
  let fit = refined(stated, linear, ROUGH);
  let noiseScale = roughNoise(stated, unknowns, fit.point);
  for (let round = 1; ; round++) {
    const observations = withNoiseScale(stated, noiseScale);
    fit = refined(observations, fit);
    const posterior = posteriorAt(observations, unknowns, fit.point);
    const wrong = Number.isFinite(posterior.noiseScale) ? posterior.noiseScale : 1;
    if (
      Math.abs(Math.log(wrong)) < 0.02 ||
      noiseScale * wrong < LEAST_NOISE ||
      round === MOST_ROUNDS ||
      work.isSpent()
    ) {
      return { ...fit, observations, posterior, noiseScale };
    }
    noiseScale *= wrong;
  }
}

/** Least noise scale: readings without noise leave only rounding, and a scale of 0 would make the fit rigid. */
const LEAST_NOISE = 1e-3;
/** Loose tolerance of the first fit, which only has to show how large the residuals are. */
const ROUGH = 1e-4;
const MOST_ROUNDS = 4;

/** Residuals against the stated noise as if every unknown were decided by the readings; 1 with none to spare. */
function roughNoise(observations: Observations, unknowns: Unknowns, point: Point): number {
  const readings = observations.readings.length * observations.grid.count;
  const toSpare = readings - unknowns.cells * unknowns.size - unknowns.border;
  if (toSpare <= 0) return 1;
  return Math.max(LEAST_NOISE, Math.sqrt((2 * misfitAt(observations, unknowns, point)) / toSpare));
}

/** What decided: the refinement over all, or the kind of readings that the linear stage had. */
function methodOf({ options, samples, toners }: CheckedJob): CharacterisationMethod {
  if (options.refine === "joint") return "joint";
  const finite = samples.filter(({ readings }) => readings.some(({ backing }) => backing !== undefined));
  if (finite.length === samples.length) return "two-backings";
  return finite.length === 0 && samples.length <= 2 * toners.length - 1 ? "masstone-and-tint" : "ladders";
}
