import { pathTo } from "../core/check.js";
import { InputError } from "../core/InputError.js";
import { list, numbers } from "../core/shape/list.js";
import { type Noted, record } from "../core/shape/record.js";
import { rule } from "../core/shape/rule.js";
import { checkBands, GRID, type Grid } from "../spectra/grid.js";
import { GEOMETRY, type Geometry, geometryFacts } from "./geometry.js";

/** One spectrum at one geometry. */
export interface Reading extends Noted {
  /** Measuring geometry: CIE 15 names, or `45as` and the aspecular angle. */
  readonly geometry: Geometry;
  /** Wavelengths. */
  readonly grid: Grid;
  /** Reflectance factor as a fraction, band by band. */
  readonly reflectance: ArrayLike<number>;
}

/** Refuses reflectance that no paint gives, and another number of values than the grid has wavelengths. */
export function checkReflectance({ geometry, grid, reflectance }: Reading, path: string): void {
  const place = pathTo(path, "reflectance");
  checkBands(reflectance, grid, place);
  const { largest } = geometryFacts(geometry);
  for (let i = 0; i < reflectance.length; i++) {
    if (reflectance[i] <= largest) continue;
    const reason = `${reflectance[i]} looks like per cent; reflectance is a fraction, 0.25 for 25 %`;
    throw new InputError("percent-not-fraction", `${place}[${i}]`, reason);
  }
}

/** Throws `wrong-length`, `not-finite`, `out-of-range`, and `percent-not-fraction` for values no paint gives. */
export const READING = rule(
  record<Reading>(
    { geometry: GEOMETRY, grid: GRID, reflectance: numbers({ min: 0 }) },
    // What `predict` answers beside the reflectance, so that its readings may be given as they are.
    { others: ["reflectancePerGram"] },
  ),
  checkReflectance,
);

/** Readings of one surface: at least one, no geometry twice. */
export const READINGS = list(READING, { min: 1, unique: "geometry" });

/** The same where other things may have been seen of it instead. */
export const SOME_READINGS = list(READING, { unique: "geometry" });
