import type { Interval } from "./scale.js";

/** A rectangle in pixels; y runs down. */
export interface Area {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

export type Point = readonly [x: number, y: number];

/** Pixels from left to right: the range of a horizontal axis. */
export function across({ left, width }: Area): Interval {
  return [left, left + width];
}

/** Pixels from bottom to top: the range of a vertical axis. */
export function upwards({ top, height }: Area): Interval {
  return [top + height, top];
}

export function areasOverlap(a: Area, b: Area): boolean {
  return (
    a.left < b.left + b.width &&
    b.left < a.left + a.width &&
    a.top < b.top + b.height &&
    b.top < a.top + a.height
  );
}
