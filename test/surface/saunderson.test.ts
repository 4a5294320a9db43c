import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  internalReflectance,
  measuredReflectance,
  measuredSlope,
  type SurfaceTerms,
  surfaceTerms,
} from "../../src/surface/saunderson.js";
import { relativeDifference } from "../support/relativeDifference.js";

const fraction = fc.integer({ min: 0, max: 1000 }).map((thousandths) => thousandths / 1000);

/** k1, k2 with k1 + k2 ≤ 0.99, seen in any of the three ways. */
const terms: fc.Arbitrary<SurfaceTerms> = fc
  .tuple(
    fraction,
    fraction,
    fraction,
    fc.constantFrom("d:8 specular included", "d:8 specular excluded", "45:0"),
  )
  .map(([sum, share, specularRest, geometry]) => {
    const [k1, k2] = [0.99 * sum * share, 0.99 * sum * (1 - share)];
    return surfaceTerms({ geometry: geometry as "45:0", k1, k2, specularRest });
  });

describe("Saunderson: published (seen: Ri 0.05 → Rm 0.021 with k1 = 0, k2 = 0.6, 2 digits)", () => {
  it("both ways", () => {
    const surface = surfaceTerms({ geometry: "d:8 specular included", k1: 0, k2: 0.6 });
    expect(Math.abs(measuredReflectance(0.05, surface) - 0.021)).toBeLessThan(5e-4);
    expect(Math.abs(internalReflectance(0.021, surface) - 0.05)).toBeLessThan(1.2e-3);
  });
});

describe("Saunderson: the forms written out by hand", () => {
  // Ri = ½, k1 = 1/25, k2 = 3/5: (24/25)(2/5)(1/2)/(1 − 3/10) = 48/175
  it("specular included: 1/25 + 48/175 = 11/35", () => {
    const surface = surfaceTerms({ geometry: "d:8 specular included", k1: 0.04, k2: 0.6 });
    expect(relativeDifference(measuredReflectance(0.5, surface), 11 / 35)).toBeLessThan(1e-15);
  });

  it("specular excluded: 48/175, and with a fifth of k1 let by 48/175 + 1/125", () => {
    const surface = { geometry: "d:8 specular excluded", k1: 0.04, k2: 0.6 } as const;
    expect(relativeDifference(measuredReflectance(0.5, surfaceTerms(surface)), 48 / 175)).toBeLessThan(1e-15);
    const leaky = surfaceTerms({ ...surface, specularRest: 0.2 });
    expect(relativeDifference(measuredReflectance(0.5, leaky), 48 / 175 + 1 / 125)).toBeLessThan(1e-15);
  });

  it("fixed directions: nothing added; the crossing where there is one, (1−k1)(1−k2) else", () => {
    const surface = { geometry: "45as25", k1: 0.04, k2: 0.6 } as const;
    expect(relativeDifference(measuredReflectance(0.5, surfaceTerms(surface)), 48 / 175)).toBeLessThan(1e-15);
    const crossing = surfaceTerms({ ...surface, crossing: 0.42 });
    expect(relativeDifference(measuredReflectance(0.5, crossing), 0.3)).toBeLessThan(1e-15);
    const bright = surfaceTerms({ ...surface, crossing: 0.42, brightness: 4 });
    expect(relativeDifference(measuredReflectance(0.5, bright), 1.2)).toBeLessThan(1e-15);
  });
});

describe("Saunderson", () => {
  it("internal → measured → internal, and the other way", () => {
    fc.assert(
      fc.property(terms, fraction, (surface, internal) => {
        const measured = measuredReflectance(internal, surface);
        expect(Math.abs(internalReflectance(measured, surface) - internal)).toBeLessThan(1e-11);
        const inside = internalReflectance(internal, surface);
        if (inside < 1) {
          expect(Math.abs(measuredReflectance(inside, surface) - internal)).toBeLessThan(1e-11);
        }
      }),
      { numRuns: 500 },
    );
  });

  it("rises with Ri at measuredSlope: (f(b) − f(a))/(b − a) = √(f′(a)·f′(b)) for this kind of fraction", () => {
    fc.assert(
      fc.property(terms, fraction, fraction, (surface, a, b) => {
        fc.pre(Math.abs(a - b) > 0.05);
        const chord = (measuredReflectance(b, surface) - measuredReflectance(a, surface)) / (b - a);
        const slopes = Math.sqrt(measuredSlope(a, surface) * measuredSlope(b, surface));
        expect(relativeDifference(chord, slopes)).toBeLessThan(1e-11);
        expect(chord).toBeGreaterThan(0);
      }),
    );
  });

  it("keeps black at what the surface shows, perfect white (specular included) at 1", () => {
    fc.assert(
      fc.property(terms, (surface) => {
        expect(measuredReflectance(0, surface)).toBe(surface.offset);
        expect(internalReflectance(surface.offset, surface)).toBe(0);
      }),
    );
    const included = surfaceTerms({ geometry: "d:8 specular included", k1: 0.04, k2: 0.6 });
    expect(measuredReflectance(1, included)).toBeCloseTo(1, 15);
  });

  it("a reading at or below the surface's own reflection comes out at or below 0", () => {
    fc.assert(
      fc.property(terms, fraction, (surface, share) => {
        const inside = internalReflectance(surface.offset * share, surface);
        expect(inside).toBeLessThanOrEqual(0);
        expect(Number.isFinite(inside)).toBe(true);
      }),
    );
  });

  it("at Rm = 0.045 an error of 0.0005 changes K/S by 10 %: computed (from k1 0.04, k2 0.596)", () => {
    const surface = surfaceTerms({ geometry: "d:8 specular included", k1: 0.04, k2: 0.596 });
    const ratio = (rm: number) =>
      (1 - internalReflectance(rm, surface)) ** 2 / (2 * internalReflectance(rm, surface));
    expect(Math.abs(ratio(0.0455) / ratio(0.045) - 0.9)).toBeLessThan(0.01);
  });
});
