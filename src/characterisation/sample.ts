import { checkList, checkNumber, checkNumbers, checkRecord, checkText, pathTo } from "../core/check.js";
import { InputError } from "../core/InputError.js";
import { type Grid, sameGrid } from "../spectra/grid.js";
import type { Geometry } from "../surface/geometry.js";
import { checkReading, type Reading } from "../surface/reading.js";
import { checkGrams, type Grams } from "../toners/pot.js";
import type { Toner } from "../toners/toner.js";

/** One reading of a drawdown, and of the bare backing under it. */
export interface SampleReading extends Reading {
  /** Reflectance of the bare backing read the same way, band by band; absent when the film hides it fully. */
  readonly backing?: ArrayLike<number>;
  /** What to call the backing, such as "black" or "white". */
  readonly backingName?: string;
}

/** A film of known composition, as read: a drawdown, a step of a tint ladder, a masstone. */
export interface Sample {
  readonly name: string;
  /** Mass of each component, in grams or any other measure: only the shares matter. */
  readonly recipe: Grams;
  /** Dry film in µm, where it was measured. */
  readonly thickness?: number;
  readonly readings: readonly SampleReading[];
}

/** What the samples of one job share. */
export interface SampleShape {
  readonly grid: Grid;
  readonly geometries: readonly Geometry[];
  readonly toners: readonly Toner[];
}

/** Checks one sample against the grid, geometries and toners of its job. Throws InputError with code and place. */
export function checkSample(value: unknown, path: string, shape: SampleShape): Sample {
  const record = checkRecord(value, path);
  const name = checkText(record.name, pathTo(path, "name"));
  const recipe = checkGrams(record.recipe, pathTo(path, "recipe"), shape.toners);
  if (!Object.values(recipe).some((mass) => mass > 0)) {
    throw new InputError("no-pigment", pathTo(path, "recipe"), `"${name}" holds nothing`);
  }
  const place = pathTo(path, "readings");
  const readings = Array.from(checkList(record.readings, place, { min: 1 }), (reading, i) =>
    checkSampleReading(reading, `${place}[${i}]`, shape),
  );
  const { thickness } = record;
  return {
    name,
    recipe,
    readings,
    ...(thickness !== undefined && {
      thickness: checkNumber(thickness, pathTo(path, "thickness"), { min: 0, max: 1e4, aboveMin: true }),
    }),
  };
}

function checkSampleReading(value: unknown, path: string, { grid, geometries }: SampleShape): SampleReading {
  const record = checkRecord(value, path);
  const reading = checkReading(value, path);
  if (!sameGrid(reading.grid, grid)) {
    throw new InputError("outside-grid", pathTo(path, "grid"), "all readings need the grid of the job");
  }
  if (!geometries.includes(reading.geometry)) {
    const reason = `there is no surface for "${reading.geometry}"`;
    throw new InputError("unknown-geometry", pathTo(path, "geometry"), reason);
  }
  const { backing, backingName } = record;
  return {
    ...reading,
    ...(backing !== undefined && {
      backing: checkNumbers(backing, pathTo(path, "backing"), grid.count, { min: 0, max: 2 }),
    }),
    ...(backingName !== undefined && { backingName: checkText(backingName, pathTo(path, "backingName")) }),
  };
}
