import { describe, expect, it } from "vitest";
import { createPaintReader, PAINT_PHYSICS } from "./paint.js";
import { IDS } from "./pigments.js";

const read = createPaintReader(PAINT_PHYSICS);
const thick = { depth: 24, backing: 0.4 };
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

describe("a simulated paint", () => {
  it("keeps to shares: twice the grams are the same paint, and no film gives light", () => {
    for (const id of IDS) {
      const once = read({ grams: { [id]: 3, white: 2 } }, thick);
      const twice = read({ grams: { white: 4, [id]: 6 } }, thick);
      twice.forEach((value, band) => {
        expect(value).toBeCloseTo(once[band], 12);
        expect(value).toBeGreaterThan(0.03);
        expect(value).toBeLessThan(1);
      });
    }
  });

  it("a can of half the strength is half the grams in binder, which a thin film shows", () => {
    const grams = { red: 10, white: 20 };
    const weak = read({ grams, strengths: { red: 0.5, white: 0.5 } }, { depth: 8, backing: 0.02 });
    const same = read({ grams }, { depth: 4, backing: 0.02 });
    // Not quite: white is less crowded in more binder.
    expect(mean(weak)).toBeGreaterThan(mean(same));
    expect(mean(weak) / mean(same)).toBeLessThan(1.1);
  });

  it("white crowds: alone it hides less than its grams say, by about the share stated", () => {
    const free = createPaintReader({ ...PAINT_PHYSICS, crowding: 0 });
    const grams = { white: 100 };
    const crowded = read({ grams }, { depth: 10, backing: 0.02 });
    const thinner = free({ grams }, { depth: 10 * (1 - PAINT_PHYSICS.crowding), backing: 0.02 });
    // The absorption, which does not crowd, is as much less as the film is thinner: next to nothing in the red.
    expect(Math.abs(crowded[25] - thinner[25])).toBeLessThan(0.002);
    expect(crowded[25]).toBeLessThan(free({ grams }, { depth: 10, backing: 0.02 })[25] - 0.02);
  });

  it("fade lightens where the pigment absorbed; age yellows the blue end alone", () => {
    const grams = { white: 60, yellow: 40 };
    const fresh = read({ grams }, thick);
    const faded = read({ grams, left: { yellow: 0.7 } }, thick);
    expect(faded[5]).toBeGreaterThan(fresh[5]);
    const aged = read({ grams: { white: 100 }, yellowing: 0.002 }, thick);
    const white = read({ grams: { white: 100 } }, thick);
    expect(white[5] - aged[5]).toBeGreaterThan(0.005);
    expect(white[28] - aged[28]).toBeLessThan(0.001);
  });
});
