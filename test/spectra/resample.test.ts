import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/core/InputError.js";
import { type Grid, gridEnd, wavelengths } from "../../src/spectra/grid.js";
import { resampleLagrange, resampleSprague } from "../../src/spectra/resample.js";
import { extendForSprague } from "../../src/spectra/sprague.js";

const TENTHS: Grid = { start: 400, step: 1, count: 151 };
const UNITS: Grid = { start: 400, step: 10, count: 16 };

/** Sample and its Sprague interpolation at a tenth of the spacing: colour-science, test_interpolation.py. */
const SAMPLE = [
  9.37, 12.32, 12.46, 9.51, 5.92, 4.33, 4.29, 3.88, 4.51, 10.92, 27.5, 49.67, 69.59, 81.73, 88.19, 86.05,
];
// biome-ignore format: a table
const SAMPLE_SPRAGUE = [
  9.37, 9.72075073, 10.06936191, 10.4114757, 10.7430227, 11.06022653, 11.35960827, 11.637991, 11.89250427, 12.1205886,
  12.32, 12.48873542, 12.62489669, 12.7270653, 12.79433478, 12.82623598, 12.82266243, 12.78379557, 12.71003009, 12.60189921,
  12.46, 12.28440225, 12.074048, 11.829765, 11.554432, 11.25234375, 10.928576, 10.5883505, 10.2364, 9.87633325,
  9.51, 9.13692962, 8.756208, 8.36954763, 7.980976, 7.59601562, 7.220864, 6.86157362, 6.523232, 6.20914162,
  5.92, 5.654602, 5.414496, 5.20073875, 5.012944, 4.8496875, 4.708912, 4.58833225, 4.48584, 4.399909,
  4.33, 4.27757887, 4.245952, 4.23497388, 4.240992, 4.25804688, 4.279072, 4.29709387, 4.306432, 4.30389887,
  4.29, 4.26848387, 4.240432, 4.20608887, 4.166032, 4.12117188, 4.072752, 4.02234887, 3.971872, 3.92356387,
  3.88, 3.84319188, 3.813184, 3.79258487, 3.786912, 3.80367187, 3.85144, 3.93894087, 4.074128, 4.26326387,
  4.51, 4.81362075, 5.170288, 5.5822515, 6.05776, 6.60890625, 7.249472, 7.992773, 8.849504, 9.82558375,
  10.92, 12.12700944, 13.448928, 14.88581406, 16.432832, 18.08167969, 19.822016, 21.64288831, 23.53416, 25.48793794,
  27.5, 29.57061744, 31.699648, 33.88185481, 36.107776, 38.36511719, 40.640144, 42.91907456, 45.189472, 47.44163694,
  49.67, 51.87389638, 54.052736, 56.20157688, 58.311984, 60.37335938, 62.374272, 64.30378787, 66.1528, 67.91535838,
  69.59, 71.17616669, 72.662832, 74.04610481, 75.331712, 76.53183594, 77.661952, 78.73766606, 79.771552, 80.76998919,
  81.73, 82.64375688, 83.51935227, 84.35919976, 85.15567334, 85.89451368, 86.55823441, 87.12952842, 87.59467414, 87.94694187,
  88.19, 88.33345751, 88.37111372, 88.30221714, 88.13600972, 87.88846516, 87.57902706, 87.2273472, 86.85002373, 86.45733945,
  86.05,
];

describe("resampleSprague", () => {
  it("published (seen): colour-science's Sprague sample at a tenth of the spacing", () => {
    const { values } = resampleSprague({ grid: UNITS, values: SAMPLE }, TENTHS);
    expect(values.length).toBe(SAMPLE_SPRAGUE.length);
    SAMPLE_SPRAGUE.forEach((expected, i) => {
      expect(values[i]).toBeCloseTo(expected, 7);
    });
  });

  it("published (seen): CIE 167:2005 end-point coefficients, numerators over 209", () => {
    // The response of the four extended points to each of the six end points in turn.
    const response = (place: number, end: number, count: number) => {
      const unit = Array.from({ length: count }, (_, i) => (i === end ? 209 : 0));
      return extendForSprague(unit)[place];
    };
    const rows = (places: readonly number[], first: number) =>
      places.map((place) =>
        Array.from({ length: 6 }, (_, i) => Math.round(1e6 * response(place, first + i, 12)) / 1e6),
      );
    expect(rows([0, 1], 0)).toEqual([
      [884, -1960, 3033, -2648, 1080, -180],
      [508, -540, 488, -367, 144, -24],
    ]);
    expect(rows([14, 15], 6)).toEqual([
      [-24, 144, -367, 488, -540, 508],
      [-180, 1080, -2648, 3033, -1960, 884],
    ]);
  });

  it("refuses fewer than six points", () => {
    const source = { grid: { start: 400, step: 50, count: 5 }, values: [1, 2, 3, 4, 5] };
    expect(() => resampleSprague(source, { start: 410, step: 10, count: 5 }, "card")).toThrow(
      expect.objectContaining({ code: "wrong-length", path: "card" }),
    );
  });
});

/** A polynomial in a variable that runs from −1 to 1 over 360–830 nm, so that its terms are of one size. */
const polynomial = (coefficients: readonly number[]) => (nm: number) =>
  coefficients.reduceRight((sum, c) => sum * ((nm - 595) / 235) + c, 0);
const onGrid = (grid: Grid, f: (nm: number) => number) => ({ grid, values: wavelengths(grid).map(f) });
const coefficientsOf = (degree: number) =>
  fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: degree + 1, maxLength: degree + 1 });
const sources = fc.record({
  start: fc.integer({ min: 360, max: 400 }),
  step: fc.constantFrom(2.5, 5, 10, 20),
  count: fc.integer({ min: 12, max: 21 }),
});

/** A target inside the source, `margin` source steps away from its ends. */
const inside = (source: Grid, fraction: number, margin: number): Grid => {
  const step = fraction * source.step;
  const start = source.start + margin * source.step + 0.3 * step;
  const count = Math.floor((gridEnd(source) - margin * source.step - start) / step);
  return { start, step, count };
};

describe("resampling", () => {
  const cases = [
    { name: "Sprague", resample: resampleSprague, degree: 4, margin: 2 },
    { name: "Sprague", resample: resampleSprague, degree: 1, margin: 0 },
    { name: "Lagrange", resample: resampleLagrange, degree: 3, margin: 1 },
    { name: "Lagrange", resample: resampleLagrange, degree: 2, margin: 0 },
  ];
  for (const { name, resample, degree, margin } of cases) {
    it(`${name} is exact for degree ${degree}, ${margin} intervals from the ends`, () => {
      fc.assert(
        fc.property(sources, coefficientsOf(degree), fc.constantFrom(0.2, 0.5, 0.73), (grid, c, fraction) => {
          const f = polynomial(c);
          const target = inside(grid, fraction, margin);
          const { values } = resample(onGrid(grid, f), target);
          wavelengths(target).forEach((nm, i) => {
            expect(Math.abs(values[i] - f(nm))).toBeLessThan(1e-12);
          });
        }),
      );
    });
  }

  for (const [name, resample] of [
    ["Sprague", resampleSprague],
    ["Lagrange", resampleLagrange],
  ] as const) {
    it(`${name} follows the given points and is the identity on its own grid`, () => {
      fc.assert(
        fc.property(
          fc.array(fc.double({ min: 0, max: 2, noNaN: true }), { minLength: 31, maxLength: 31 }),
          (values) => {
            const source = { grid: { start: 400, step: 10, count: 31 }, values };
            expect(resample(source, { ...source.grid })).toBe(source);
            const finer = resample(source, { start: 400, step: 5, count: 61 }).values;
            values.forEach((value, i) => {
              expect(finer[2 * i]).toBeCloseTo(value, 12);
            });
          },
        ),
      );
    });

    it(`${name} never extrapolates`, () => {
      const source = onGrid({ start: 400, step: 10, count: 31 }, (nm) => nm / 1000);
      const beyond = fc.constantFrom(
        { start: 399.9, step: 10, count: 31 },
        { start: 400, step: 10, count: 32 },
        { start: 360, step: 5, count: 95 },
        { start: 410, step: 10, count: 42 },
      );
      fc.assert(
        fc.property(beyond, (target) => {
          expect(() => resample(source, target, "targets[0]")).toThrow(InputError);
          expect(() => resample(source, target, "targets[0]")).toThrow(
            expect.objectContaining({ code: "outside-grid", path: "targets[0]" }),
          );
        }),
      );
    });
  }
});
