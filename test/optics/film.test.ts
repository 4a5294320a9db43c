import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { film, overBacking } from "../../src/optics/film.js";
import { reflectivity } from "../../src/optics/infiniteFilm.js";
import { FILMS_COMPUTED, FILMS_PUBLISHED } from "../../src/verification/data/films.js";
import { arithmetic, kubelkaFilm, relativeError } from "../oracles/kubelka.js";
import { extremeFilm } from "../support/filmArbitraries.js";
import { relativeDifference } from "../support/relativeDifference.js";

describe("film: computed (stable form in 60 digits, printed to 12)", () => {
  it.each([
    { at: [1, 2, 0.5, 0.8], r0: 0.346546065857, t: 0.283647630326, r: 0.435599835119 },
    { at: [0, 2, 0.5, 0.8], r0: 0.5, t: 0.5, r: 0.833333333333 },
    { at: [1, 0, 0.5, 0.8], r0: 0, t: 0.606530659713, r: 0.294303552937 },
    { at: [50, 0.5, 1, 0.8], r0: 0.00495061637922, t: 1.1727e-22, r: 0.00495061637922 },
  ])("K, S, X, Rg = $at", ({ at: [k, s, x, rg], r0, t, r }) => {
    const layer = film(k, s, x);
    expect(relativeDifference(layer.reflectance, r0)).toBeLessThan(1e-11);
    expect(relativeDifference(layer.transmittance, t)).toBeLessThan(t < 1e-20 ? 5e-5 : 1e-11);
    expect(relativeDifference(overBacking(layer, rg), r)).toBeLessThan(1e-11);
  });
});

describe("film: computed (Kubelka 1948 in mpmath, 30 digits)", () => {
  it.each(FILMS_COMPUTED)("K %d S %d X %d over %d", (k, s, x, rg, r, r0, t, rInfinity) => {
    const layer = film(k, s, x);
    expect(relativeDifference(overBacking(layer, rg), r)).toBeLessThan(1e-13);
    expect(relativeDifference(layer.reflectance, r0)).toBeLessThan(1e-13);
    expect(relativeDifference(layer.transmittance, t)).toBeLessThan(1e-13);
    expect(relativeDifference(reflectivity(k, s), rInfinity)).toBeLessThan(1e-13);
  });
});

describe("film over a backing: published (seen: unit test of a painterly-rendering library, T. Lindemeier)", () => {
  it.each(FILMS_PUBLISHED)("K %d S %d X %d over %d is %d within its 1e-5", (k, s, x, rg, r) => {
    expect(Math.abs(overBacking(film(k, s, x), rg) - r)).toBeLessThanOrEqual(1e-5);
  });
});

describe("film: computed (textbook form of Kubelka 1948 in 60 digits)", () => {
  it("holds 2e-15 relative for R0, 1e-12 for R and T, K = 0 and S = 0 included", () => {
    const real = arithmetic(60);
    const check = (actual: number, exact: ReturnType<typeof kubelkaFilm>["r"], bound: number) =>
      exact.lt(1e-290) ? actual < 1.01e-290 : relativeError(actual, exact) <= bound;
    fc.assert(
      fc.property(extremeFilm, ({ k, s, thickness, backing }) => {
        const exact = kubelkaFilm(real, k, s, thickness, backing);
        const layer = film(k, s, thickness);
        expect(check(layer.reflectance, exact.r0, 2e-15), "R0").toBe(true);
        expect(check(layer.transmittance, exact.t, 1e-12), "T").toBe(true);
        expect(check(overBacking(layer, backing), exact.r, 1e-12), "R").toBe(true);
      }),
      { numRuns: 6000, seed: 1948 },
    );
  });
});

describe("film: what must hold whatever the numbers", () => {
  it("R and T are never negative and never exceed 1 together", () => {
    fc.assert(
      fc.property(extremeFilm, ({ k, s, thickness, backing }) => {
        const layer = film(k, s, thickness);
        expect(layer.reflectance).toBeGreaterThanOrEqual(0);
        expect(layer.transmittance).toBeGreaterThanOrEqual(0);
        expect(layer.reflectance + layer.transmittance).toBeLessThanOrEqual(1 + 4e-16);
        const r = overBacking(layer, backing);
        expect(r).toBeGreaterThanOrEqual(layer.reflectance);
        expect(r).toBeLessThanOrEqual(1 + 4e-16);
      }),
    );
  });

  it("no film at all is the backing, exactly", () => {
    expect(film(3, 4, 0)).toEqual({ reflectance: 0, transmittance: 1 });
    expect(overBacking(film(3, 4, 0), 0.37)).toBe(0.37);
    expect(film(0, 0, 5)).toEqual({ reflectance: 0, transmittance: 1 });
  });

  it("a mirror on a mirror reflects everything instead of dividing by a rounded zero", () => {
    expect(overBacking(film(0, 1e12, 1e6), 1)).toBe(1);
    expect(overBacking({ reflectance: 1, transmittance: 0 }, 1)).toBe(1);
  });
});
