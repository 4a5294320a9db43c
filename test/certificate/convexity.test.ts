import { expect, it } from "vitest";
import { reflectanceOf } from "../../src/certificate/checker/underColour.js";
import type { ForwardModel } from "../../src/forward/forwardModel.js";

/* By divided differences over many q, for surfaces up to the ends of what the checker takes. */

const modelOf = (k2: number, rise: number) =>
  ({
    set: { grid: { start: 400, step: 10, count: 1 } },
    surfaces: [{ offset: 0, gain: 0.97 * (1 - k2), k2, rise }],
    anchor: { shift: new Float64Array(1) },
  }) as unknown as ForwardModel;

const ratios = Array.from({ length: 400 }, (_, i) => 1e-7 * 10 ** (i / 36));

it("reflectance falls and is convex in K/S for every surface that is checked", () => {
  for (const rise of [-0.5, -0.25, 0, 0.25, 0.5]) {
    for (const k2 of [-0.05, 0.25, 0.4, 0.6, 0.74]) {
      const { value, slope } = reflectanceOf({ model: modelOf(k2, rise) }, 0);
      for (let i = 1; i < ratios.length; i++) {
        const [low, high] = [ratios[i - 1], ratios[i]];
        const secant = (value(high) - value(low)) / (high - low);
        expect(secant).toBeLessThan(0);
        expect(slope(low)).toBeLessThanOrEqual(secant * (1 - 1e-9));
        expect(slope(high)).toBeGreaterThanOrEqual(secant * (1 + 1e-9));
      }
    }
  }
});

it("beyond those surfaces the bound is NaN, so that nothing follows from it", () => {
  expect(reflectanceOf({ model: modelOf(0.6, 0.6) }, 0).value(0.1)).toBeNaN();
  expect(reflectanceOf({ model: modelOf(0.995, 0) }, 0).value(0.1)).toBeNaN();
});
