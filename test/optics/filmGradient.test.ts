import type { Decimal } from "decimal.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { film, overBacking } from "../../src/optics/film.js";
import { filmGradient } from "../../src/optics/filmGradient.js";
import { arithmetic, exactly, kubelkaFilm, relativeError } from "../oracles/kubelka.js";
import { extremeFilm, type FilmCase } from "../support/filmArbitraries.js";
import { relativeDifference } from "../support/relativeDifference.js";

const real = arithmetic(150);

/** Central difference of the textbook film with a step of 1e−40, one-sided at zero; good to about 1e−40. */
function slope(at: FilmCase, by: keyof FilmCase): Decimal {
  const centre = exactly(real, at[by]);
  const step = new real("1e-40").times(centre.isZero() ? 1 : centre);
  const reflectance = (value: Decimal) => {
    const { k, s, thickness, backing } = { ...at, [by]: value } as Record<keyof FilmCase, Decimal.Value>;
    return kubelkaFilm(real, k, s, thickness, backing).r;
  };
  const low = centre.isZero() ? centre : centre.minus(step);
  const high = centre.plus(step);
  return reflectance(high).minus(reflectance(low)).div(high.minus(low));
}

/** Below this the reference itself is noise: R to 150 digits less cancellation, divided by the step. */
const BELOW_REFERENCE = 1e-60;

function expectSlopes(at: FilmCase): void {
  const { k, s, thickness, backing } = at;
  const gradient = filmGradient(k, s, thickness, backing);
  const relative = (actual: number, by: keyof FilmCase) => {
    const exact = slope(at, by);
    return exact.abs().lt(BELOW_REFERENCE) ? Number(Math.abs(actual) > 2e-60) : relativeError(actual, exact);
  };
  expect(relative(gradient.byK, "k"), "byK").toBeLessThan(1e-12);
  expect(relative(gradient.byS, "s"), "byS").toBeLessThan(1e-12);
  expect(relative(gradient.byBacking, "backing"), "byBacking").toBeLessThan(1e-12);
  const scale = gradient.byBacking * (s * (1 - backing) ** 2 + 2 * k * backing);
  const error = slope(at, "thickness").minus(gradient.byThickness).abs().toNumber();
  expect(error, "byThickness").toBeLessThanOrEqual(1e-12 * scale + BELOW_REFERENCE);
}

describe("filmGradient: computed (differences of the textbook form in 150 digits)", () => {
  it.each([
    { name: "a paint", k: 1, s: 2, thickness: 0.5, backing: 0.8 },
    { name: "κX just below ½", k: 0.2, s: 0.35, thickness: 1.15, backing: 0.3 },
    { name: "κX just above ½", k: 0.2, s: 0.35, thickness: 1.2, backing: 0.3 },
    { name: "κX small", k: 1e-6, s: 1e-6, thickness: 1e-3, backing: 0.5 },
    { name: "κX near the series limit of tanh", k: 1e-3, s: 1e-4, thickness: 0.91, backing: 0.5 },
    { name: "hides fully", k: 5, s: 50, thickness: 3, backing: 0.8 },
    { name: "dark and thick", k: 50, s: 0.5, thickness: 1, backing: 0.8 },
    { name: "K = 0", k: 0, s: 2, thickness: 0.5, backing: 0.8 },
    { name: "K = 0 over black", k: 0, s: 2, thickness: 0.5, backing: 0 },
    { name: "K nearly 0 over nearly white", k: 1e-11, s: 2, thickness: 0.5, backing: 1 - 1e-9 },
    { name: "S = 0", k: 1, s: 0, thickness: 0.5, backing: 0.8 },
    { name: "S = 0 and thick", k: 10, s: 0, thickness: 5, backing: 0.8 },
    { name: "S nearly 0", k: 1, s: 1e-11, thickness: 0.5, backing: 0.8 },
  ])("$name", ({ k, s, thickness, backing }) => expectSlopes({ k, s, thickness, backing }));

  it("holds 1e-12 far beyond any paint", () => {
    fc.assert(fc.property(extremeFilm, expectSlopes), { numRuns: 250, seed: 1948 });
  });
});

describe("filmGradient: limits known exactly", () => {
  it("of nothing at all: dR/dK = −2XRg, dR/dS = X(1−Rg)², dR/dRg = 1", () => {
    const { byK, byS, byThickness, byBacking } = filmGradient(0, 0, 0.5, 0.25);
    expect([byK, byS, byThickness, byBacking]).toEqual([-0.25, 0.5 * 0.5625, 0, 1]);
  });

  it("a white film over white cannot change by scattering or thickness", () => {
    const { byS, byThickness } = filmGradient(0, 7, 0.5, 1);
    expect(byS).toBe(0);
    expect(byThickness).toBe(0);
  });

  it("gives the reflectance of film and overBacking", () => {
    fc.assert(
      fc.property(extremeFilm, ({ k, s, thickness, backing }) => {
        const { reflectance } = filmGradient(k, s, thickness, backing);
        const expected = overBacking(film(k, s, thickness), backing);
        if (expected > 1e-290) expect(relativeDifference(reflectance, expected)).toBeLessThan(1e-12);
      }),
    );
  });
});
