import { VIEWING, type Viewing } from "../colorimetry/viewing.js";
import { InputError } from "../core/InputError.js";
import { list } from "../core/shape/list.js";
import { oneOf } from "../core/shape/oneOf.js";
import { optional } from "../core/shape/optional.js";
import { type Noted, record } from "../core/shape/record.js";
import { text } from "../core/shape/text.js";
import { GRID, type Grid } from "../spectra/grid.js";
import { SURFACE, type Surface } from "../surface/surface.js";
import { checkToners, GRAMS, type Grams } from "../toners/pot.js";
import { TONER_TO_FIND, type TonerToFind } from "../toners/toner.js";
import { tonerIndex } from "../toners/tonerIndex.js";
import {
  CHARACTERISATION_DEFAULTS,
  CHARACTERISATION_OPTIONS,
  type CharacterisationOptions,
} from "./characterisationOptions.js";
import { checkSample, SAMPLE, type Sample } from "./sample.js";

/** What was drawn down and read, and of which toners. */
export interface CharacterisationJob extends Noted {
  readonly grid: Grid;
  /** The surface at every geometry that was read. */
  readonly surfaces: readonly Surface[];
  readonly toners: readonly TonerToFind[];
  readonly samples: readonly Sample[];
  /** Id of the toner that K, S and densities are relative to; the first white when absent, or the first toner. */
  readonly reference?: string;
  /** For colour differences; D65 and the 10° observer when absent. */
  readonly viewing?: Viewing;
  readonly options?: CharacterisationOptions;
  /** Drawdowns that could be made next, to be ranked. */
  readonly candidates?: readonly Candidate[];
}

/** A drawdown that could be made. */
export interface Candidate extends Noted {
  readonly recipe: Grams;
  readonly backing: "opaque" | "black and white";
}

/** A job with every default in place. */
export interface CheckedJob extends CharacterisationJob {
  readonly viewing: Viewing;
  readonly options: Required<CharacterisationOptions>;
  readonly candidates: readonly Candidate[];
}

const DEFAULT_VIEWING: Viewing = { observer: "1964-10", illuminants: [{ name: "D65", weight: 1 }] };

const CANDIDATE = record<Candidate>({ recipe: GRAMS, backing: oneOf(["opaque", "black and white"]) });

/** The shape of a job; `checkCharacterisationJob` also checks that its parts fit one another. */
export const CHARACTERISATION_JOB = record<CheckedJob, CharacterisationJob>(
  {
    grid: GRID,
    surfaces: list(SURFACE, { min: 1, max: 20, unique: "geometry" }),
    toners: list(TONER_TO_FIND, { min: 1, max: 200, unique: "id" }),
    samples: list(SAMPLE, { min: 1, max: 2000, unique: "name" }),
    reference: optional(text()),
    viewing: optional(VIEWING, DEFAULT_VIEWING),
    options: optional(CHARACTERISATION_OPTIONS, CHARACTERISATION_DEFAULTS),
    candidates: optional(list(CANDIDATE), []),
  },
  { format: "masstone/samples" },
);

/**
 * Checks a job of `characterise`: one grid for all readings, ids and names once, recipes of known toners, every toner
 * in some sample, every geometry with a surface. Throws InputError with code and place.
 */
export function checkCharacterisationJob(value: unknown): CheckedJob {
  const job = CHARACTERISATION_JOB.check(value, "");
  const { grid, toners, samples, candidates } = job;
  const geometries = job.surfaces.map(({ geometry }) => geometry);
  samples.forEach((sample, i) => {
    checkSample(sample, `samples[${i}]`, { grid, geometries, toners });
  });
  toners.forEach(({ id }, j) => {
    if (samples.some(({ recipe }) => recipe[id] > 0)) return;
    throw new InputError("missing", `toners[${j}]`, `no sample holds "${id}": nothing can be said of it`);
  });
  candidates.forEach(({ recipe }, i) => {
    checkToners(recipe, `candidates[${i}].recipe`, toners);
  });
  if (job.reference !== undefined) tonerIndex(toners, job.reference, "reference");
  return job;
}

/** Index of the toner that is named as reference, else of the first white, else 0. */
export function referenceIndex({ reference, toners }: CheckedJob): number {
  const isReference = ({ id, role }: TonerToFind) =>
    reference === undefined ? role === "white" : id === reference;
  return Math.max(0, toners.findIndex(isReference));
}
