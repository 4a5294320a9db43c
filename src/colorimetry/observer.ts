import { oneOf } from "../core/shape/oneOf.js";
import type { Grid } from "../spectra/grid.js";
import { CIE_1931 } from "./data/cie1931.js";
import { CIE_1964 } from "./data/cie1964.js";

/** The CIE standard observers of 2° and 10°. */
export const OBSERVER_IDS = Object.freeze(["1931-2", "1964-10"] as const);

/** CIE standard colorimetric observers: 1931 with a field of 2°, 1964 with a field of 10°. */
export type ObserverId = (typeof OBSERVER_IDS)[number];

/** Colour-matching functions on one grid. */
export interface Observer {
  readonly grid: Grid;
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly z: readonly number[];
}

const GRID: Grid = { start: 360, step: 5, count: 95 };

/** The name of an observer that is known. Throws `unknown-observer`, listing those that are. */
export const OBSERVER = oneOf(OBSERVER_IDS, "unknown-observer");

/** Colour-matching functions of a CIE standard observer, 360–830 nm every 5 nm. Throws `unknown-observer`. */
export function standardObserver(id: ObserverId, path = ""): Observer {
  return { grid: GRID, ...(OBSERVER.check(id, path) === "1931-2" ? CIE_1931 : CIE_1964) };
}
