import { checkViewing, type Viewing } from "../colorimetry/viewing.js";
import { checkList, checkNumber, checkRecord, checkText, pathTo } from "../core/check.js";
import { didYouMean } from "../core/didYouMean.js";
import { InputError } from "../core/InputError.js";
import { checkGrid, type Grid } from "../spectra/grid.js";
import { checkSurface, type Surface } from "../surface/surface.js";
import { checkGrams, type Grams } from "../toners/pot.js";
import type { Toner } from "../toners/toner.js";
import { type CharacterisationOptions, checkOptions } from "./characterisationOptions.js";
import { checkSample, type Sample } from "./sample.js";

/** A toner to be characterised: all that is said of it but K and S. */
export interface TonerToFind extends Omit<Toner, "k" | "s" | "misfit"> {
  /** Of the dry paint, in any unit common to all: a dense paint makes a film of the same thickness richer. */
  readonly density?: number;
}

/** What was drawn down and read, and of which toners. */
export interface CharacterisationJob {
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
export interface Candidate {
  readonly recipe: Grams;
  readonly backing: "opaque" | "black and white";
}

/** The same with nothing left open. */
export interface CheckedJob extends CharacterisationJob {
  readonly referenceIndex: number;
  readonly viewing: Viewing;
  readonly options: Required<CharacterisationOptions>;
  readonly candidates: readonly Candidate[];
}

const DEFAULT_VIEWING: Viewing = { observer: "1964-10", illuminants: [{ name: "D65" }] };
const MOST_TONERS = 200;
const MOST_SAMPLES = 2000;

/**
 * Checks a job of `characterise`: one grid for all readings, ids and names once, recipes of known toners, every toner
 * in some sample, every geometry with a surface. Throws InputError with code and place.
 */
export function checkCharacterisationJob(value: unknown): CheckedJob {
  const record = checkRecord(value, "");
  const grid = checkGrid(record.grid, "grid");
  const surfaces = Array.from(checkList(record.surfaces, "surfaces", { min: 1, max: 20 }), (surface, i) =>
    checkSurface(surface, `surfaces[${i}]`),
  );
  refuseTwice(
    surfaces.map(({ geometry }) => geometry),
    "surfaces",
    "geometry",
  );
  const toners = Array.from(
    checkList(record.toners, "toners", { min: 1, max: MOST_TONERS }),
    checkTonerToFind,
  );
  refuseTwice(
    toners.map(({ id }) => id),
    "toners",
    "id",
  );
  const ids = toners.map(({ id }) => ({ id, k: {}, s: {} }));
  const geometries = surfaces.map(({ geometry }) => geometry);
  const samples = Array.from(
    checkList(record.samples, "samples", { min: 1, max: MOST_SAMPLES }),
    (sample, i) => checkSample(sample, `samples[${i}]`, { grid, geometries, toners: ids }),
  );
  refuseTwice(
    samples.map(({ name }) => name),
    "samples",
    "name",
  );
  toners.forEach(({ id }, j) => {
    if (samples.some(({ recipe }) => recipe[id] > 0)) return;
    throw new InputError("missing", `toners[${j}]`, `no sample holds "${id}": nothing can be said of it`);
  });
  const { viewing = DEFAULT_VIEWING, candidates = [] } = record;
  return {
    grid,
    surfaces,
    toners,
    samples,
    referenceIndex: findReference(record.reference, toners),
    viewing: checkViewing(viewing, "viewing"),
    options: checkOptions(record.options, "options"),
    candidates: Array.from(checkList(candidates, "candidates"), (candidate, i) => {
      const place = `candidates[${i}]`;
      const { recipe, backing } = checkRecord(candidate, place);
      if (backing !== "opaque" && backing !== "black and white") {
        throw new InputError(
          "unknown-word",
          `${place}.backing`,
          '"opaque" or "black and white" is needed here',
        );
      }
      return { recipe: checkGrams(recipe, `${place}.recipe`, ids), backing };
    }),
  };
}

function checkTonerToFind(value: unknown, i: number): TonerToFind {
  const path = `toners[${i}]`;
  const record = checkRecord(value, path);
  const { density } = record;
  return {
    ...record,
    id: checkText(record.id, pathTo(path, "id")),
    ...(density !== undefined && {
      density: checkNumber(density, `${path}.density`, { min: 0.01, max: 1e5 }),
    }),
  };
}

function findReference(value: unknown, toners: readonly TonerToFind[]): number {
  if (value === undefined) {
    return Math.max(
      0,
      toners.findIndex(({ role }) => role === "white"),
    );
  }
  const index = toners.findIndex(({ id }) => id === value);
  if (index < 0) {
    const known = toners.map(({ id }) => id);
    const name = checkText(value, "reference");
    const reason = `no toner "${name}"; there are ${known.join(", ")}.${didYouMean(name, known)}`;
    throw new InputError("unknown-toner", "reference", reason);
  }
  return index;
}

function refuseTwice(names: readonly string[], path: string, key: string): void {
  names.forEach((name, i) => {
    if (names.indexOf(name) === i) return;
    throw new InputError("duplicate", `${path}[${i}].${key}`, `"${name}" stands twice`);
  });
}
