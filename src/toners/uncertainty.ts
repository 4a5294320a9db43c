import { list, numbers } from "../core/shape/list.js";
import { map } from "../core/shape/map.js";
import { record } from "../core/shape/record.js";
import { GEOMETRY } from "../surface/geometry.js";
import type { SpectraByGeometry } from "./toner.js";

/** Changes of ln K and ln S of a toner. */
export interface LogChange {
  /** Of ln K, by geometry. */
  readonly k: SpectraByGeometry;
  /** Of ln S, by geometry. */
  readonly s: SpectraByGeometry;
}

/**
 * One way in which a toner set may be wrong, by one standard deviation: changes of ln K and ln S by toner id (none
 * for a toner that is not named). The modes of a set are independent of one another; their squares add up.
 */
export type UncertaintyMode = Readonly<Record<string, LogChange>>;

const MOST_MODES = 500;
/** A factor e^50 is beyond any unit. */
const CHANGES = map(numbers({ min: -50, max: 50 }), GEOMETRY);

/** Modes for themselves; their set looks whether they fit its toners and grid. */
export const UNCERTAINTY = list(map(record<LogChange>({ k: CHANGES, s: CHANGES })), { max: MOST_MODES });
