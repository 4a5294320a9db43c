import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  diffuseExternalReflectance,
  diffuseInternalReflectance,
  fresnelReflectance,
} from "../../src/surface/fresnel.js";
import {
  FRESNEL_DIFFUSE_COMPUTED,
  FRESNEL_DIFFUSE_OF_1_5,
  FRESNEL_DIFFUSE_OF_BINDERS,
  FRESNEL_DIFFUSE_OF_WATER,
  FRESNEL_TABLE,
} from "../../src/verification/data/fresnelTables.js";
import { integratedExternal, integratedInternal } from "../oracles/diffuseFresnel.js";
import { relativeDifference } from "../support/relativeDifference.js";

describe("fresnelReflectance: published (seen: tests of iadpython and of mitsuba3)", () => {
  it.each(FRESNEL_TABLE)("from n = %d into %d at cosine %d: %d", (here, beyond, cosine, r, tolerance) => {
    expect(Math.abs(fresnelReflectance(cosine, beyond / here) - r)).toBeLessThan(tolerance);
  });
});

describe("fresnelReflectance", () => {
  it("is the same from both sides of the boundary at the two angles of one ray", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 999 }), fc.integer({ min: 1010, max: 3000 }), (c, m) => {
        const [cosine, n] = [c / 1000, m / 1000];
        const refracted = Math.sqrt(1 - (1 - cosine * cosine) / (n * n));
        const [there, back] = [fresnelReflectance(cosine, n), fresnelReflectance(refracted, 1 / n)];
        expect(Math.abs(there - back)).toBeLessThan(1e-11);
      }),
    );
  });

  it("is nothing where both sides are alike, everything at grazing incidence", () => {
    expect(fresnelReflectance(0.3, 1)).toBeLessThan(1e-30);
    expect(fresnelReflectance(0, 1.3)).toBe(1);
    expect(fresnelReflectance(0, 1 / 1.3)).toBe(1);
  });

  it("reaches total reflection without a jump", () => {
    const critical = Math.sqrt(1 - 1 / 2.25);
    expect(fresnelReflectance(critical * (1 + 1e-14), 1 / 1.5)).toBeGreaterThan(1 - 1e-5);
    expect(fresnelReflectance(critical * (1 - 1e-14), 1 / 1.5)).toBe(1);
  });
});

describe("diffuse reflectances: published (seen: answer key of a water-optics course, 6 digits)", () => {
  it.each(FRESNEL_DIFFUSE_OF_WATER)("n = %d: outside %d, inside %d", (n, external, internal) => {
    expect(Math.abs(diffuseExternalReflectance(n) - external)).toBeLessThanOrEqual(5.1e-7);
    expect(Math.abs(diffuseInternalReflectance(n) - internal)).toBeLessThanOrEqual(5.1e-7);
  });
});

describe("diffuse reflectances: published (seen: a pigment-optics note, 2 to 3 digits)", () => {
  it.each(FRESNEL_DIFFUSE_OF_BINDERS)("n = %d: outside %d, inside %d", (n, external, internal) => {
    expect(Math.abs(diffuseExternalReflectance(n) - external)).toBeLessThan(5e-4);
    expect(Math.abs(diffuseInternalReflectance(n) - internal)).toBeLessThan(5e-3);
  });
});

it("diffuse reflectances of n = 1.5: from memory (Judd 1942: 0.0918 and 0.596; Orchard 1969: 0.5963)", () => {
  const { external, internal, internalFiner } = FRESNEL_DIFFUSE_OF_1_5;
  expect(Math.abs(diffuseExternalReflectance(1.5) - external)).toBeLessThan(5e-5);
  expect(Math.abs(diffuseInternalReflectance(1.5) - internal)).toBeLessThan(5e-4);
  expect(Math.abs(diffuseInternalReflectance(1.5) - internalFiner)).toBeLessThan(5e-5);
});

describe("diffuse reflectances: computed (adaptive integration elsewhere, 12 digits)", () => {
  it.each(FRESNEL_DIFFUSE_COMPUTED)("n = %d: outside %d, inside %d", (n, external, internal) => {
    expect(Math.abs(diffuseExternalReflectance(n) - external)).toBeLessThan(2e-12);
    expect(Math.abs(diffuseInternalReflectance(n) - internal)).toBeLessThan(2e-12);
  });
});

describe("diffuse reflectances: computed (Gauss–Legendre integration of the sine and tangent laws here)", () => {
  it.each([1.01, 1.011, 1.02, 1.05, 1.1, 1.3, 1.5, 1.7, 2, 3])("n = %d", (n) => {
    expect(relativeDifference(diffuseExternalReflectance(n), integratedExternal(n))).toBeLessThan(1e-11);
    expect(Math.abs(diffuseInternalReflectance(n) - integratedInternal(n))).toBeLessThan(1e-11);
  });
});
