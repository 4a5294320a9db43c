import { pathTo } from "../core/check.js";
import { InputError } from "../core/InputError.js";
import { list, numbers } from "../core/shape/list.js";
import { number } from "../core/shape/number.js";
import { oneOf } from "../core/shape/oneOf.js";
import { optional } from "../core/shape/optional.js";
import { type Noted, record } from "../core/shape/record.js";
import { rule } from "../core/shape/rule.js";
import { text } from "../core/shape/text.js";
import { checkBands, GRID, type Grid, sameGrid } from "../spectra/grid.js";
import { GEOMETRY, type Geometry } from "../surface/geometry.js";
import { checkReflectance, type Reading } from "../surface/reading.js";
import { checkPot, GRAMS, type Grams } from "../toners/pot.js";
import type { HasId } from "../toners/tonerIndex.js";

/** One reading of a drawdown, and of the bare backing under it. */
export interface SampleReading extends Reading {
  /** Reflectance of the bare backing read the same way, band by band; absent when the film hides it fully. */
  readonly backing?: ArrayLike<number>;
  /** What to call the backing, such as "black" or "white". */
  readonly backingName?: string;
}

/** A film of known composition, as read: a drawdown, a step of a tint ladder, a masstone. */
export interface Sample extends Noted {
  /** No two of a job alike. */
  readonly name: string;
  /** Mass of each component, in grams or any other measure: only the shares matter. */
  readonly recipe: Grams;
  /** Dry film in µm, where it was measured. */
  readonly thickness?: number;
  /** How it was sprayed, of films with flake or pearl; "as the ladder" when absent. */
  readonly spray?: SprayedAs;
  readonly readings: readonly SampleReading[];
}

/** Against the ladder: flakes that lie flatter make the face lighter and the flop darker, steeper ones the other way. */
export const SPRAYED_AS = ["as the ladder", "flatter", "steeper"] as const;
/** One of `SPRAYED_AS`. */
export type SprayedAs = (typeof SPRAYED_AS)[number];

/** What the samples of one job share. */
interface Shared {
  readonly grid: Grid;
  readonly geometries: readonly Geometry[];
  readonly toners: readonly HasId[];
}

const SAMPLE_READING = rule(
  record<SampleReading>({
    geometry: GEOMETRY,
    grid: GRID,
    reflectance: numbers({ min: 0 }),
    backing: optional(numbers({ min: 0, max: 2 })),
    backingName: optional(text()),
  }),
  (reading, path) => {
    checkReflectance(reading, path);
    if (reading.backing) checkBands(reading.backing, reading.grid, pathTo(path, "backing"));
  },
);

/** Readings of a sample: at several geometries, or over several backings. */
export const SAMPLE_READINGS = list(SAMPLE_READING, { min: 1 });

/** The shape of a sample; `checkSample` also checks that it fits its job. */
export const SAMPLE = record<Sample>({
  name: text(),
  recipe: GRAMS,
  thickness: optional(number({ min: 0, max: 1e4, aboveMin: true })),
  spray: optional(oneOf(SPRAYED_AS)),
  readings: SAMPLE_READINGS,
});

/** Refuses a sample that does not fit the grid, geometries and toners of its job, or holds nothing. */
export function checkSample({ recipe, readings }: Sample, path: string, shared: Shared): void {
  checkPot(recipe, pathTo(path, "recipe"), shared.toners);
  readings.forEach(({ grid, geometry }, i) => {
    const place = `${pathTo(path, "readings")}[${i}]`;
    if (!sameGrid(grid, shared.grid)) {
      throw new InputError("outside-grid", pathTo(place, "grid"), "all readings need the grid of the job");
    }
    if (!shared.geometries.includes(geometry)) {
      const reason = `there is no surface for "${geometry}"`;
      throw new InputError("unknown-geometry", pathTo(place, "geometry"), reason);
    }
  });
}
