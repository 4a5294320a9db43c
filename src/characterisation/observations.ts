import { sum } from "../core/sum.js";
import type { Grid } from "../spectra/grid.js";
import type { Surface } from "../surface/surface.js";
import { isEffect } from "../toners/toner.js";
import type { CharacterisationOptions } from "./characterisationOptions.js";
import { type CheckedJob, referenceIndex } from "./job.js";
import type { Sample, SprayedAs } from "./sample.js";

/** One film: which toners it holds, in what shares of its mass, and how thick it is known to be. */
export interface Film {
  readonly name: string;
  /** Indices of toners in rising order, and their shares of the mass (sum 1). */
  readonly toners: Int32Array;
  readonly shares: Float64Array;
  /** Sd of ln share; 0 where the weighing is taken as exact. */
  readonly shareSd: Float64Array;
  /** Measured dry film in µm. */
  readonly thickness?: number;
  /** No reading of it shows a backing. */
  readonly isOpaque: boolean;
  readonly spray: SprayedAs;
}

/** One spectrum of a film. Numbers by band. */
export interface Observation {
  readonly film: number;
  readonly geometry: number;
  /** Measured reflectance of the bare backing; absent when the film hides it. */
  readonly backing?: Float64Array;
  readonly measured: Float64Array;
  /** 1/σ_R */
  readonly weight: Float64Array;
}

/** Everything measured, checked and laid out for arithmetic. */
export interface Observations {
  readonly grid: Grid;
  readonly tonerCount: number;
  /** Indices of the toners of flake and pearl that a film was sprayed flatter or steeper with: their orientation is sought. */
  readonly tilting: readonly number[];
  /** Those of white, which tilts flake. */
  readonly whites: readonly number[];
  readonly surfaces: readonly Surface[];
  /** ln of the density of every toner against the reference, where given; NaN where not. */
  readonly logDensity: Float64Array;
  readonly films: readonly Film[];
  readonly readings: readonly Observation[];
  /** The toner whose S is 1 where nothing absolute was measured. */
  readonly reference: number;
  readonly options: Required<CharacterisationOptions>;
}

/** Least sd of a reading: no instrument is better, and larger weights would lose the priors in rounding. */
export const FINEST_SD = 1e-6;

/** Lays a checked job out for arithmetic. */
export function observe(job: CheckedJob): Observations {
  const { grid, surfaces, toners, samples, options } = job;
  const reference = referenceIndex(job);
  const { floor, relative } = options.reflectanceSd;
  const turned = samples.filter(({ spray = "as the ladder" }) => spray !== "as the ladder");
  return {
    grid,
    tonerCount: toners.length,
    tilting: Array.from(toners.keys()).filter(
      (j) => isEffect(toners[j]) && turned.some(({ recipe }) => recipe[toners[j].id] > 0),
    ),
    whites: Array.from(toners.keys()).filter((j) => toners[j].role === "white"),
    surfaces,
    logDensity: Float64Array.from(toners, ({ density }) =>
      Math.log((density ?? Number.NaN) / (toners[reference].density ?? Number.NaN)),
    ),
    films: samples.map((sample) => filmOf(sample, job)),
    readings: samples.flatMap(({ readings }, film) =>
      readings.map(({ geometry, backing, reflectance }) => ({
        film,
        geometry: surfaces.findIndex((surface) => surface.geometry === geometry),
        ...(backing !== undefined && { backing: Float64Array.from(backing) }),
        measured: Float64Array.from(reflectance),
        weight: Float64Array.from(
          reflectance,
          (r) => 1 / Math.max(FINEST_SD, Math.hypot(floor, relative * r)),
        ),
      })),
    ),
    reference,
    options,
  };
}

function filmOf(
  { name, recipe, thickness, readings, spray = "as the ladder" }: Sample,
  { toners, options }: CheckedJob,
): Film {
  const { absolute, relative } = options.weighingSd;
  const held = Array.from(toners.keys()).filter((j) => (recipe[toners[j].id] ?? 0) > 0);
  const masses = held.map((j) => recipe[toners[j].id]);
  const total = sum(masses);
  return {
    name,
    toners: Int32Array.from(held),
    shares: Float64Array.from(masses, (mass) => mass / total),
    shareSd: Float64Array.from(masses, (mass) => Math.hypot(absolute / mass, relative)),
    ...(thickness !== undefined && { thickness }),
    isOpaque: readings.every(({ backing }) => backing === undefined),
    spray,
  };
}
