import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  diffuseExternalReflectance,
  diffuseInternalReflectance,
  fresnelReflectance,
} from "../../src/surface/fresnel.js";
import { integratedExternal, integratedInternal } from "../oracles/diffuseFresnel.js";
import { relativeDifference } from "../support/relativeDifference.js";

const degrees = (angle: number) => Math.cos((angle * Math.PI) / 180);

describe("fresnelReflectance: published (seen: tests of iadpython and of mitsuba3)", () => {
  // index here, index beyond, cosine, R, digits of the source
  it.each([
    [1, 1.5, 1, 0.04, 1e-12],
    [1, 1.5, 0.5, 0.0891867128, 1e-10],
    [1, 1.5, 0.2, 0.338894, 1e-5],
    [1, 1.5, 0, 1, 1e-12],
    [1.5, 1, 0.8, 0.11414110022, 1e-10],
    [1.5, 1, 0.5, 1, 1e-12],
    [1.5, 1, 1, 0.04, 1e-12],
    [1, 1.5, degrees(45), 0.05023991101223595, 1e-15],
    [1.5, 1, degrees(10), 0.0400829591550701, 1e-15],
    [1, 1.5, degrees(56.3099), 0.1479287705017786 / 2, 1e-12],
  ])("from n = %d into %d at cosine %d: %d", (here, beyond, cosine, r, tolerance) => {
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
  it.each([
    [1.332, 0.066248, 0.473712],
    [1.3348, 0.06669, 0.476166],
    [1.34, 0.067511, 0.480681],
  ])("n = %d: outside %d, inside %d", (n, external, internal) => {
    expect(Math.abs(diffuseExternalReflectance(n) - external)).toBeLessThanOrEqual(5.1e-7);
    expect(Math.abs(diffuseInternalReflectance(n) - internal)).toBeLessThanOrEqual(5.1e-7);
  });
});

describe("diffuse reflectances: published (seen: a pigment-optics note, 2 to 3 digits)", () => {
  it.each([
    [1.48, 0.089, 0.58],
    [1.5, 0.092, 0.6],
    [1.57, 0.102, 0.64],
  ])("n = %d: outside %d, inside %d", (n, external, internal) => {
    expect(Math.abs(diffuseExternalReflectance(n) - external)).toBeLessThan(5e-4);
    expect(Math.abs(diffuseInternalReflectance(n) - internal)).toBeLessThan(5e-3);
  });
});

it("diffuse reflectances of n = 1.5: from memory (Judd 1942: 0.0918 and 0.596; Orchard 1969: 0.5963)", () => {
  expect(Math.abs(diffuseExternalReflectance(1.5) - 0.0918)).toBeLessThan(5e-5);
  expect(Math.abs(diffuseInternalReflectance(1.5) - 0.596)).toBeLessThan(5e-4);
  expect(Math.abs(diffuseInternalReflectance(1.5) - 0.5963)).toBeLessThan(5e-5);
});

describe("diffuse reflectances: computed (adaptive integration elsewhere, 12 digits)", () => {
  it.each([
    [1.1, 0.0251573573529, 0.194344923432],
    [1.2, 0.0442802662354, 0.336305740441],
    [1.333, 0.0664057647831, 0.474590570814],
    [1.4, 0.076811545577, 0.528985482437],
    [1.5, 0.0917779593424, 0.596345759708],
    [1.55, 0.0990658309285, 0.625001386443],
    [1.6, 0.106245567839, 0.650877174937],
    [1.8, 0.134054449418, 0.732732854759],
    [2, 0.16059663707, 0.790149159267],
    [2.7, 0.24440586841, 0.896351970975],
  ])("n = %d: outside %d, inside %d", (n, external, internal) => {
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
