import { filmBelief } from "../belief/filmBelief.js";
import { checkJob, type Job } from "../problem/job.js";
import { isInferred } from "../problem/panelsToInfer.js";
import { prepareProblem } from "../problem/problem.js";
import type { Grid } from "../spectra/grid.js";
import type { Geometry } from "../surface/geometry.js";

/** A reflectance as it is believed, and one sd of it, band by band. */
export interface InferredReading {
  readonly geometry: Geometry;
  readonly grid: Grid;
  readonly reflectance: readonly number[];
  readonly sd: readonly number[];
}

/** Readings that a surface is believed to have. */
export interface InferredSurface {
  readonly name: string;
  readonly readings: readonly InferredReading[];
}

/** The answer of `inferReadings`. */
export interface InferredReadings {
  readonly format: "masstone/inferred-readings";
  readonly version: 1;
  /** Those that are believed, in the order of spraying, and the last. */
  readonly cards: readonly InferredSurface[];
  /** Those of which colours or comparisons were given. */
  readonly targets: readonly InferredSurface[];
}

/**
 * The spectra that the belief holds for cards and targets of a job, whatever they were seen by: the likeliest world's, with one
 * standard deviation (Laplace) at every band. Throws InputError as `correct` does.
 */
export function inferReadings(job: Job): InferredReadings {
  const checked = checkJob(job);
  const { belief, believed } = prepareProblem(checked);
  const { geometries, set } = belief.prior.model;
  const surface = (name: string, place: number): InferredSurface => {
    const { reflectance, sd } = filmBelief(belief, place);
    const at = (values: Float64Array, g: number) =>
      Array.from(values.subarray(g * set.grid.count, (g + 1) * set.grid.count));
    return {
      name,
      readings: geometries.map((geometry, g) => ({
        geometry,
        grid: set.grid,
        reflectance: at(reflectance, g),
        sd: at(sd, g),
      })),
    };
  };
  return {
    format: "masstone/inferred-readings",
    version: 1,
    cards: believed.map(surface),
    targets: checked.targets.filter(isInferred).map(({ name }, t) => surface(name, believed.length + t)),
  };
}
