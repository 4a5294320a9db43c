import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  ILLUMINANT_NAMES,
  type IlluminantName,
  illuminantSpectrum,
} from "../../src/colorimetry/illuminant.js";
import { labFromXyz } from "../../src/colorimetry/lab.js";
import { OBSERVER_IDS, type ObserverId } from "../../src/colorimetry/observer.js";
import { tristimulusWeights } from "../../src/colorimetry/weights.js";
import { xyzFromReflectance } from "../../src/colorimetry/xyz.js";
import { DEFAULT_GRID, type Grid, gridEnd, wavelengths } from "../../src/spectra/grid.js";
import type { Spectrum } from "../../src/spectra/spectrum.js";
import {
  ASTM_E308_SAMPLE,
  ASTM_E308_SUMS,
  ASTM_E308_WEIGHTS,
  ASTM_E308_WHITES,
} from "../../src/verification/data/astmE308.js";
import { COMPUTED_LAB, TEST_COLOUR_SAMPLES } from "./cie13.js";

const observers = fc.constantFrom(...OBSERVER_IDS);
const illuminants = fc.constantFrom(...ILLUMINANT_NAMES, "D6000K");
const grids = fc
  .record({
    start: fc.double({ min: 360, max: 420, noNaN: true }),
    step: fc.double({ min: 1, max: 20, noNaN: true }),
    end: fc.double({ min: 680, max: 830, noNaN: true }),
  })
  .map(({ start, step, end }): Grid => ({ start, step, count: Math.floor((end - start) / step) + 1 }));

describe("white points", () => {
  it.each(ASTM_E308_WHITES)(
    "published (seen): ASTM E308 of %s, %s: X %d, Z %d within %d",
    (illuminant, observer, x, z, allowed) => {
      const { white } = tristimulusWeights({ grid: DEFAULT_GRID, illuminant, observer });
      expect(Math.abs(white[0] - x)).toBeLessThan(allowed);
      expect(white[1]).toBeCloseTo(100, 10);
      expect(Math.abs(white[2] - z)).toBeLessThan(allowed);
    },
  );

  it("do not depend on the grid of the reflectances", () => {
    fc.assert(
      fc.property(grids, illuminants, observers, (grid, illuminant, observer) => {
        const { white } = tristimulusWeights({ grid, illuminant, observer });
        const usual = tristimulusWeights({ grid: DEFAULT_GRID, illuminant, observer }).white;
        white.forEach((value, i) => {
          expect(value).toBeCloseTo(usual[i], 9);
        });
      }),
    );
  });
});

describe("tristimulusWeights", () => {
  it.each(ASTM_E308_WEIGHTS.map((table) => [table.illuminant, table.observer, table.grid, table] as const))(
    "published (seen): ASTM E308 table of %s, %s, on %j within 0.001",
    (illuminant, observer, grid, table) => {
      const ours = tristimulusWeights({ grid, illuminant, observer });
      for (const axis of ["x", "y", "z"] as const) {
        expect(table[axis].length).toBe(grid.count);
        table[axis].forEach((thousandths, i) => {
          expect(Math.abs(ours[axis][i] - thousandths / 1000)).toBeLessThan(0.001);
        });
      }
    },
  );

  it("gives a constant reflectance that much of the white, the perfect diffuser L* = 100, a* = b* = 0", () => {
    fc.assert(
      fc.property(
        grids,
        illuminants,
        observers,
        fc.double({ min: 0, max: 2, noNaN: true }),
        (grid, illuminant, observer, r) => {
          const weights = tristimulusWeights({ grid, illuminant, observer });
          const constant = (value: number) =>
            xyzFromReflectance(new Float64Array(grid.count).fill(value), weights);
          expect(constant(1)).toEqual(weights.white);
          expect(labFromXyz(constant(1), weights.white)).toEqual([100, 0, 0]);
          constant(r).forEach((value, i) => {
            expect(value).toBeCloseTo(r * weights.white[i], 10);
          });
        },
      ),
    );
  });

  it("sums a quadratic reflectance on any grid over the whole range as 1 nm data would", () => {
    const whole = fc
      .constantFrom(2, 5, 10, 20)
      .map((step): Grid => ({ start: 360, step, count: Math.floor(470 / step) + 1 }))
      .filter((grid) => gridEnd(grid) === 830);
    const coefficient = fc.double({ min: -0.3, max: 0.3, noNaN: true });
    fc.assert(
      fc.property(
        whole,
        illuminants,
        observers,
        coefficient,
        coefficient,
        (grid, illuminant, observer, b, c) => {
          const reflectance = (nm: number) => 0.5 + (b * (nm - 595)) / 235 + c * ((nm - 595) / 235) ** 2;
          const seen = (on: Grid) =>
            xyzFromReflectance(
              wavelengths(on).map(reflectance),
              tristimulusWeights({ grid: on, illuminant, observer }),
            );
          const fine = seen({ start: 360, step: 1, count: 471 });
          seen(grid).forEach((value, i) => {
            expect(value).toBeCloseTo(fine[i], 8);
          });
        },
      ),
    );
  });

  it("folds bands that are missing into the end bands and leaves the others alone", () => {
    const whole = tristimulusWeights({
      grid: { start: 360, step: 10, count: 48 },
      illuminant: "D65",
      observer: "1964-10",
    });
    const short = tristimulusWeights({ grid: DEFAULT_GRID, illuminant: "D65", observer: "1964-10" });
    for (const axis of ["x", "y", "z"] as const) {
      short[axis].slice(1, -1).forEach((weight, i) => {
        expect(weight).toBeCloseTo(whole[axis][i + 5], 13);
      });
      expect(short[axis][0]).toBeCloseTo(
        whole[axis].slice(0, 5).reduce((sum, w) => sum + w, 0),
        12,
      );
      expect(short[axis][30]).toBeCloseTo(
        whole[axis].slice(34).reduce((sum, w) => sum + w, 0),
        12,
      );
    }
  });

  it.each([
    [{ start: 400, step: 25, count: 13 }, "out-of-range", "grid.step"],
    [{ start: 340, step: 10, count: 31 }, "out-of-range", "grid.start"],
  ])("refuses the grid %j", (grid, code, path) => {
    expect(() => tristimulusWeights({ grid, illuminant: "D65", observer: "1964-10" })).toThrow(
      expect.objectContaining({ code, path }),
    );
  });
});

describe("a name that is not known", () => {
  it.each([
    [{ illuminant: "candle" as IlluminantName }, "unknown-illuminant", "illuminant"],
    [{ observer: "2" as ObserverId }, "unknown-observer", "observer"],
  ])("is refused: %j", (other, code, path) => {
    const options = {
      grid: DEFAULT_GRID,
      illuminant: "D65" as IlluminantName,
      observer: "1964-10" as ObserverId,
      ...other,
    };
    expect(() => tristimulusWeights(options)).toThrow(expect.objectContaining({ code, path }));
  });
});

describe("a lamp of one's own", () => {
  const lamp = (grid: Grid, power: (nm: number) => number): Spectrum => ({
    grid,
    values: wavelengths(grid).map(power),
  });
  const weigh = (illuminant: IlluminantName | Spectrum) =>
    tristimulusWeights({ grid: DEFAULT_GRID, illuminant, observer: "1931-2" });

  it("weighs as the CIE illuminant of the same spectrum, at any scale", () => {
    const { grid, values } = illuminantSpectrum("F11");
    const ours = weigh({ grid, values: Array.from(values, (value) => 7 * value) });
    weigh("F11").z.forEach((value, i) => {
      expect(ours.z[i]).toBeCloseTo(value, 12);
    });
  });

  it("published (seen): equal energy is white 100, 100, 100 (ASTM E308), within 0.05", () => {
    for (const value of weigh(lamp({ start: 360, step: 1, count: 471 }, () => 1)).white) {
      expect(Math.abs(value - 100)).toBeLessThan(0.05);
    }
  });

  it.each([
    [lamp({ start: 360, step: 10, count: 48 }, () => 1), "out-of-range", "illuminant.grid.step"],
    [lamp({ start: 400, step: 5, count: 61 }, () => 1), "outside-grid", "illuminant.grid"],
    [lamp({ start: 380, step: 5, count: 81 }, (nm) => 500 - nm), "out-of-range", "illuminant.values[25]"],
    [lamp({ start: 380, step: 5, count: 81 }, () => 0), "out-of-range", "illuminant.values"],
    [{ grid: { start: 380, step: 5, count: 81 }, values: [1, 2, 3] }, "wrong-length", "illuminant.values"],
  ])("is refused when it cannot be used (%#)", (illuminant, code, path) => {
    expect(() => weigh(illuminant)).toThrow(expect.objectContaining({ code, path }));
  });
});

describe("xyzFromReflectance", () => {
  const worked = (grid: Grid) =>
    Float64Array.from(wavelengths(grid), (nm) => {
      const index = (nm - 400) / 5;
      return index < 0 || index >= ASTM_E308_SAMPLE.length ? 0 : ASTM_E308_SAMPLE[index] / 10000;
    });

  it.each(ASTM_E308_SUMS)(
    "seen in colour-science's tests: worked sum for %s, %s on %j",
    (illuminant, observer, grid, expected, tolerance) => {
      const ours = xyzFromReflectance(worked(grid), tristimulusWeights({ grid, illuminant, observer }));
      expected.forEach((value, i) => {
        expect(Math.abs(ours[i] - value)).toBeLessThan(tolerance);
      });
    },
  );

  it("refuses a spectrum of another length", () => {
    const weights = tristimulusWeights({ grid: DEFAULT_GRID, illuminant: "D65", observer: "1931-2" });
    expect(() => xyzFromReflectance(new Float64Array(30), weights)).toThrow(
      expect.objectContaining({ code: "wrong-length", path: "reflectance" }),
    );
  });
});

describe("CIE 13.3 test colour samples", () => {
  const TO_1_NM: Grid = { start: 360, step: 1, count: 471 };
  const LAMP: Grid = { start: 380, step: 1, count: 401 };
  const linear = ({ grid, values }: Spectrum, nm: number) => {
    const position = (nm - grid.start) / grid.step;
    const i = Math.min(Math.floor(position), grid.count - 2);
    return values[i] + (position - i) * (values[i + 1] - values[i]);
  };
  const samples = TEST_COLOUR_SAMPLES.map(
    (values): Spectrum => ({ grid: { start: 360, step: 5, count: 95 }, values: values.map((v) => v / 1000) }),
  );

  it.each(Object.keys(COMPUTED_LAB))(
    "computed by another program, 1 nm and linear: Lab for %s",
    (conditions) => {
      const [illuminant, observer] = conditions.split(" ");
      const source = illuminantSpectrum(illuminant as IlluminantName);
      const lamp = { grid: LAMP, values: wavelengths(LAMP).map((nm) => linear(source, nm)) };
      const weights = tristimulusWeights({
        grid: TO_1_NM,
        illuminant: lamp,
        observer: observer === "1931-2" ? "1931-2" : "1964-10",
      });
      samples.forEach((sample, i) => {
        const fine = wavelengths(TO_1_NM).map((nm) => linear(sample, nm));
        const lab = labFromXyz(xyzFromReflectance(fine, weights), weights.white);
        lab.forEach((value, axis) => {
          expect(Math.abs(value - COMPUTED_LAB[conditions][i][axis])).toBeLessThan(0.003);
        });
      });
    },
  );
});
