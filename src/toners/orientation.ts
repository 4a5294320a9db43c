import { map } from "../core/shape/map.js";
import { number } from "../core/shape/number.js";
import { record } from "../core/shape/record.js";
import { GEOMETRY, type Geometry } from "../surface/geometry.js";

/** How ln S of a flake at one geometry goes with x, the ln width of its tilts against the ladder's: slope·x + bend·x². */
export interface TiltCurve {
  readonly slope: number;
  readonly bend: number;
}

/** By geometry, what the lie of its flakes does to a toner; nothing where a geometry is missing. */
export type Orientation = { readonly [G in Geometry]?: TiltCurve };

const CURVE = number({ min: -100, max: 100 });

export const ORIENTATION = map(record<TiltCurve>({ slope: CURVE, bend: CURVE }), GEOMETRY);

/** slope·x + bend·x². */
export function tilted({ slope, bend }: TiltCurve, x: number): number {
  return (slope + bend * x) * x;
}

/** slope + 2·bend·x. */
export function tiltedSlope({ slope, bend }: TiltCurve, x: number): number {
  return slope + 2 * bend * x;
}
