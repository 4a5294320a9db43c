import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  contrastRatio,
  HIDING_DEFAULTS,
  type HidingChart,
  hidingThickness,
} from "../../src/optics/hiding.js";
import { measuredReflectance, surfaceTerms } from "../../src/surface/saunderson.js";
import { powerOfTen } from "../support/filmArbitraries.js";
import { refusal } from "../support/refusal.js";
import { relativeDifference } from "../support/relativeDifference.js";

const { black, white } = HIDING_DEFAULTS;
const terms = surfaceTerms({ geometry: "d:8 specular included", k1: 0.04, k2: 0.596 });
const glossy = (internal: number) => measuredReflectance(internal, terms);

const oneBand = (k: number, s: number): HidingChart => ({ k: [k], s: [s], luminous: [1], black, white });

/** Four bands of any paint that scatters, bare on a chart of any two fields or under gloss over a perfect black. */
const chart: fc.Arbitrary<HidingChart> = fc
  .record({
    k: fc.array(powerOfTen(-4, 1), { minLength: 4, maxLength: 4 }),
    s: fc.array(powerOfTen(-2, 1.5), { minLength: 4, maxLength: 4 }),
    luminous: fc.array(fc.integer({ min: 1, max: 100 }), { minLength: 4, maxLength: 4 }),
    black: fc.integer({ min: 0, max: 300 }).map((thousandths) => thousandths / 1000),
    white: fc.integer({ min: 500, max: 1000 }).map((thousandths) => thousandths / 1000),
    gloss: fc.boolean(),
  })
  .map(({ gloss, ...paint }) => (gloss ? { ...paint, black: 0, observe: glossy } : paint));

describe("contrastRatio", () => {
  it("of a bare chart is that of its fields", () => {
    expect(contrastRatio({ ...oneBand(1, 2), black: 0.2 }, 0)).toBe(0.25);
    const seen = contrastRatio({ ...oneBand(1, 2), black: 0.2, observe: glossy }, 0);
    expect(seen).toBe(glossy(0.2) / glossy(0.8));
  });

  it("weighs bands by how bright they are: Σ over black ÷ Σ over white, not a mean of ratios", () => {
    // A perfect white of SX = 1: over black ½, over 0.8 (1 + 0.8 − 0.8)/(2 − 0.8) = 5/6. A clear band: 0 and 0.8.
    const two: HidingChart = { k: [0, 0], s: [1, 0], luminous: [3, 1], black, white };
    expect(relativeDifference(contrastRatio(two, 1), 1.5 / (2.5 + 0.8))).toBeLessThan(1e-15);
  });

  it("stays between the bare chart and 1 and grows with thickness", () => {
    fc.assert(
      fc.property(chart, powerOfTen(-3, 2), powerOfTen(-1.5, 1), (paint, thickness, factor) => {
        const thin = contrastRatio(paint, thickness);
        const thick = contrastRatio(paint, thickness * (1 + factor));
        expect(thin).toBeGreaterThanOrEqual(contrastRatio(paint, 0) - 1e-14);
        expect(thick).toBeLessThanOrEqual(1 + 1e-14);
        expect(thick).toBeGreaterThanOrEqual(thin - 1e-14);
      }),
      { numRuns: 2000 },
    );
  });

  it("of a dye keeps to that of the chart, even where no light comes back", () => {
    expect(contrastRatio({ ...oneBand(2, 0), black: 0.2 }, 1)).toBeCloseTo(0.25, 14);
    expect(contrastRatio({ ...oneBand(2, 0), black: 0.2 }, 1e6)).toBe(0.25);
    expect(contrastRatio(oneBand(2, 0), 1e6)).toBe(0);
  });
});

describe("hidingThickness", () => {
  it.each([0.5, 0.9, 0.98, 0.999])(
    "of a perfect white: computed (root of the quadratic of K = 0) at %d",
    (c) => {
      // m/(1+m) = c(m + w − mw)/(1 + m − mw) with m = SX
      const a = (1 - c) * (1 - white);
      const m = (Math.sqrt((1 - c) ** 2 + 4 * a * c * white) - (1 - c)) / (2 * a);
      expect(relativeDifference(hidingThickness(oneBand(0, 1), c), m)).toBeLessThan(1e-9);
      expect(relativeDifference(hidingThickness(oneBand(0, 400), c), m / 400)).toBeLessThan(1e-9);
    },
  );

  it("is where the contrast ratio is what was wanted, to 1e-9 of the thickness", () => {
    fc.assert(
      fc.property(chart, fc.integer({ min: 700, max: 995 }), (paint, thousandths) => {
        const wanted = thousandths / 1000;
        const thickness = hidingThickness(paint, wanted);
        expect(contrastRatio(paint, thickness * (1 - 1.1e-9))).toBeLessThan(wanted + 1e-14);
        expect(contrastRatio(paint, thickness * (1 + 1.1e-9))).toBeGreaterThan(wanted - 1e-14);
      }),
      { numRuns: 300 },
    );
  });

  it("wants 0.98 unless told otherwise", () => {
    expect(hidingThickness(oneBand(1, 20))).toBe(hidingThickness(oneBand(1, 20), 0.98));
  });

  it("halves when K and S double, wherever they lie", () => {
    for (const scale of [1e-12, 1e-3, 2, 1e9]) {
      const expected = hidingThickness(oneBand(1, 5)) / scale;
      expect(relativeDifference(hidingThickness(oneBand(scale, 5 * scale)), expected)).toBeLessThan(1e-9);
    }
  });

  it("is Infinity for what never hides", () => {
    expect(hidingThickness(oneBand(0, 0))).toBe(Number.POSITIVE_INFINITY);
    expect(hidingThickness(oneBand(3, 0))).toBe(Number.POSITIVE_INFINITY);
    expect(hidingThickness({ ...oneBand(3, 0), black: 0.2 })).toBe(Number.POSITIVE_INFINITY);
    expect(hidingThickness(oneBand(1, 20), 1)).toBe(Number.POSITIVE_INFINITY);
  });

  it("a dye under gloss does hide: both fields end as the shine alone", () => {
    const dye: HidingChart = { ...oneBand(3, 0), observe: glossy };
    const thickness = hidingThickness(dye);
    expect(Number.isFinite(thickness)).toBe(true);
    expect(contrastRatio(dye, thickness)).toBeCloseTo(0.98, 8);
  });

  it("is 0 where the bare chart already has it", () => {
    expect(hidingThickness({ ...oneBand(1, 2), black: 0.8 })).toBe(0);
    expect(hidingThickness({ ...oneBand(1, 2), black: 0.4 }, 0.5)).toBe(0);
    expect(hidingThickness({ ...oneBand(1, 2), black: 0.8 }, 1)).toBe(0);
  });

  it.each([
    [-0.1, "out-of-range"],
    [1.01, "out-of-range"],
    [Number.NaN, "not-finite"],
  ])("refuses a wanted ratio of %d", (wanted, code) => {
    expect(refusal(() => hidingThickness(oneBand(1, 2), wanted))).toEqual({ code, path: "wanted" });
  });
});
