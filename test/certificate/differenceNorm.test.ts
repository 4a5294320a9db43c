import { describe, expect, it } from "vitest";
import { isShown } from "../../src/certificate/checker/differenceClaim.js";
import { differenceCells, differenceNorm } from "../../src/certificate/prover/differenceNorm.js";
import { ciede2000 } from "../../src/colorimetry/ciede2000.js";
import type { Lab } from "../../src/colorimetry/lab.js";
import { createRandom } from "../../src/numeric/probability/random.js";
import { mostAlong, TARGETS, WAYS } from "./mostAlong.js";

const random = createRandom(11);
const between = (low: number, high: number) => low + (high - low) * random.uniform();

/** Everywhere in Lab, neutrals and the blues where R_T turns the ellipsoids among them. */
const targets: readonly Lab[] = Array.from({ length: 40 }, (_, i) => {
  const chroma = i % 4 === 0 ? between(0, 2) : between(2, 90);
  const hue = i % 3 === 0 ? between(4.2, 5.4) : between(0, 2 * Math.PI);
  return [between(5, 98), chroma * Math.cos(hue), chroma * Math.sin(hue)];
});
const directions: readonly Lab[] = Array.from({ length: 6 }, () => [
  between(-1, 1),
  between(-1, 1),
  between(-1, 1),
]);

describe("the norm of CIEDE2000 along a direction", () => {
  it.each([0.05, 0.5, 2, 6, 10])("is never less than what colours within %d of the target show", (within) => {
    let nearest = Number.POSITIVE_INFINITY;
    for (const target of targets) {
      const cells = differenceCells(target, within);
      const norms = directions.map((n) => differenceNorm(cells, n));
      for (let k = 0; k < 250; k++) {
        const way: Lab = [random.normal(), random.normal(), random.normal()];
        const reach = (3 * within * random.uniform()) / Math.hypot(...way);
        const colour: Lab = [
          target[0] + way[0] * reach,
          target[1] + way[1] * reach,
          target[2] + way[2] * reach,
        ];
        const difference = ciede2000(target, colour);
        if (!(difference <= within && difference > 1e-6)) continue;
        directions.forEach((n, i) => {
          const along = n.reduce((sum, value, axis) => sum + value * (colour[axis] - target[axis]), 0);
          expect(along).toBeLessThanOrEqual(norms[i] * difference * (1 + 1e-9));
          if (along > 0) nearest = Math.min(nearest, (norms[i] * difference) / along);
        });
      }
    }
    // Not only sound: somewhere nearly met.
    expect(nearest).toBeLessThan(1.15);
  });

  // How far above the truth it lies, by today's cells: the farther one looks, the wider they are.
  it.each([
    [0.1, 1.035, 1.005],
    [1, 1.16, 1.0248],
    [4, 1.55, 1.09],
  ])(
    "within %d is no less than the most that was found, and at most %d times as much",
    (within, most, onAverage) => {
      const ratios = TARGETS.flatMap((target) => {
        const cells = differenceCells(target, within);
        return WAYS.map((n) => differenceNorm(cells, n) / mostAlong(target, n, within));
      });
      expect(Math.min(...ratios)).toBeGreaterThanOrEqual(1);
      expect(Math.max(...ratios)).toBeLessThan(most);
      expect(ratios.reduce((sum, ratio) => sum + ratio, 0) / ratios.length).toBeLessThan(onAverage);
    },
  );

  it("is shown by the checker, and what is a tenth smaller is not", () => {
    for (const within of [0.3, 2, 5]) {
      for (const target of targets.slice(0, 20)) {
        const cells = differenceCells(target, within);
        for (const n of directions.slice(0, 3)) {
          const most = differenceNorm(cells, n) * (1 + 1e-6);
          expect(isShown({ target, n, most, within })).toBe(true);
          if (within < 1) expect(isShown({ target, n, most: 0.9 * most, within })).toBe(false);
        }
      }
    }
  });
});
