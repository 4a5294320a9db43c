import type { Point } from "./area.js";

/** Pixels between points put along a path: finer than any text is high. */
const STEP = 10;

/** Points along the straight parts of a path, so that labels can keep off it. */
export function alongPath(path: readonly Point[]): readonly Point[] {
  return path.slice(1).flatMap(([x, y], i) => {
    const [fromX, fromY] = path[i];
    const count = Math.ceil(Math.hypot(x - fromX, y - fromY) / STEP);
    return Array.from({ length: count }, (_, n): Point => {
      const share = n / count;
      return [fromX + share * (x - fromX), fromY + share * (y - fromY)];
    });
  });
}
