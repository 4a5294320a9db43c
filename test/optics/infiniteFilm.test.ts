import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { film } from "../../src/optics/film.js";
import {
  absorptionRatio,
  attenuation,
  reflectivity,
  reflectivityFromRatio,
  reflectivitySlope,
} from "../../src/optics/infiniteFilm.js";
import { FILMS_THAT_HIDE } from "../../src/verification/data/films.js";
import { arithmetic, exactly, relativeError } from "../oracles/kubelka.js";
import { powerOfTen } from "../support/filmArbitraries.js";
import { relativeDifference } from "../support/relativeDifference.js";

describe("absorptionRatio and reflectivityFromRatio: computed ((1−R)²/2R to 15 digits)", () => {
  it.each(FILMS_THAT_HIDE)("R∞ = %d ⇔ K/S = %d", (r, q) => {
    expect(Math.abs(absorptionRatio(r) - q)).toBeLessThanOrEqual(2e-14 * q);
    expect(Math.abs(reflectivityFromRatio(q) - r)).toBeLessThanOrEqual(1e-14);
  });
});

describe("reflectivity", () => {
  const real = arithmetic(60);

  it("agrees with 60 digits to 1e-15 over K, S of 10^-12 … 10^6", () => {
    fc.assert(
      fc.property(powerOfTen(-12, 6), powerOfTen(-12, 6), (k, s) => {
        const [K, S] = [exactly(real, k), exactly(real, s)];
        const a = K.plus(S).div(S);
        const exact = a.minus(a.times(a).minus(1).sqrt());
        expect(relativeError(reflectivity(k, s), exact)).toBeLessThan(1e-15);
      }),
      { numRuns: 1000 },
    );
  });

  it("is what a film thick enough reflects, whatever it lies on", () => {
    fc.assert(
      fc.property(powerOfTen(-2, 2), powerOfTen(-2, 2), (k, s) => {
        const thick = 40 / attenuation(k, s);
        expect(relativeDifference(film(k, s, thick).reflectance, reflectivity(k, s))).toBeLessThan(2e-15);
      }),
    );
  });

  it("depends on the ratio alone and is 1 without absorption, 0 without scattering", () => {
    fc.assert(
      fc.property(powerOfTen(-6, 6), powerOfTen(-3, 3), (q, s) => {
        expect(relativeDifference(reflectivity(q * s, s), reflectivityFromRatio(q))).toBeLessThan(2e-15);
      }),
    );
    expect(reflectivity(0, 3)).toBe(1);
    expect(reflectivity(3, 0)).toBe(0);
    expect(reflectivity(0, 0)).toBeNaN();
  });
});

describe("inverse pair", () => {
  it("ratio → reflectivity → ratio, no worse than the digits of R allow", () => {
    fc.assert(
      fc.property(powerOfTen(-8, 8), (q) => {
        const r = reflectivityFromRatio(q);
        // q = (1−R)²/2R: an error δ of R moves q by 2δ/(1−R) of itself; R is good to 4e−16.
        const allowed = 1e-15 + 8e-16 / (1 - r);
        expect(relativeDifference(absorptionRatio(r), q)).toBeLessThan(allowed);
      }),
    );
  });

  it("reflectivity → ratio → reflectivity", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1_000_000 }), (millionths) => {
        const r = millionths / 1e6;
        expect(relativeDifference(reflectivityFromRatio(absorptionRatio(r)), r)).toBeLessThan(2e-15);
      }),
    );
  });
});

describe("reflectivitySlope: computed (difference in 100 digits)", () => {
  it("is dR∞/dq at every reflectivity", () => {
    const real = arithmetic(100);
    const reflectivityAt = (q: InstanceType<typeof real>) => {
      const a = q.plus(1);
      return a.minus(a.times(a).minus(1).sqrt());
    };
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 999_999 }), (millionths) => {
        const r = millionths / 1e6;
        const R = exactly(real, r);
        const q = new real(1).minus(R).pow(2).div(R.times(2));
        const step = q.times("1e-30");
        const exact = reflectivityAt(q.plus(step))
          .minus(reflectivityAt(q.minus(step)))
          .div(step.times(2));
        expect(relativeError(reflectivitySlope(r), exact)).toBeLessThan(1e-15);
      }),
    );
  });

  it("is 0 at black and −∞ at white", () => {
    expect(Math.abs(reflectivitySlope(0))).toBe(0);
    expect(reflectivitySlope(1)).toBe(Number.NEGATIVE_INFINITY);
  });
});
