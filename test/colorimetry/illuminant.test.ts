import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { DAYLIGHT_COMPONENTS } from "../../src/colorimetry/data/daylightComponents.js";
import { FLUORESCENTS } from "../../src/colorimetry/data/fluorescents.js";
import { ILLUMINANT_C } from "../../src/colorimetry/data/illuminantC.js";
import { LED_B3 } from "../../src/colorimetry/data/ledB3.js";
import { daylight, daylightChromaticity } from "../../src/colorimetry/daylight.js";
import { checkIlluminant, ILLUMINANT_NAMES, illuminantSpectrum } from "../../src/colorimetry/illuminant.js";
import { tristimulusWeights } from "../../src/colorimetry/weights.js";
import { DEFAULT_GRID } from "../../src/spectra/grid.js";

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
const chromaticity = (illuminant: string, observer: "1931-2" | "1964-10") => {
  const [x, y, z] = tristimulusWeights({ grid: DEFAULT_GRID, illuminant, observer }).white;
  return [x / (x + y + z), y / (x + y + z)];
};
const at = (name: string, nm: number) => {
  const { grid, values } = illuminantSpectrum(name);
  return values[Math.round((nm - grid.start) / grid.step)];
};

describe("the tables of the illuminants", () => {
  it("keep the sums of their birth certificates (computed from the transcription)", () => {
    const { s0, s1, s2 } = DAYLIGHT_COMPONENTS;
    expect([s0, s1, s2].map((component) => sum(component).toFixed(1))).toEqual(["4163.2", "291.5", "160.1"]);
    expect([s0, s1, s2].map((component) => component[(560 - 360) / 10])).toEqual([100, 0, 0]);
    expect(sum(ILLUMINANT_C).toFixed(2)).toBe("7300.54");
    const { F2, F7, F11 } = FLUORESCENTS;
    expect([F2, F7, F11].map((lamp) => sum(lamp).toFixed(2))).toEqual(["594.50", "788.90", "594.08"]);
    expect(sum(LED_B3).toFixed(3)).toBe("4186.013");
  });

  it.each(ILLUMINANT_NAMES)("%s has a power ≥ 0 for every wavelength of its grid", (name) => {
    const { grid, values } = illuminantSpectrum(name);
    expect(values.length).toBe(grid.count);
    expect(Math.min(...Array.from(values))).toBeGreaterThanOrEqual(0);
  });
});

describe("published (seen): ISO/CIE 11664-2 and CIE 15 tables as carried by Debian's colord-data", () => {
  it.each([
    [360, 6.14462],
    [400, 14.708],
    [555, 96.4423],
    [560, 100],
    [700, 198.261],
    [830, 261.602],
  ])("illuminant A at %i nm is %d", (nm, expected) => {
    expect(Math.abs(at("A", nm) / expected - 1)).toBeLessThan(5e-6);
  });

  it.each([
    [360, 46.6383],
    [365, 49.3637],
    [545, 104.225],
    [560, 100],
    [700, 71.6091],
    [830, 60.3125],
  ])("D65 at %i nm is %d", (nm, expected) => {
    expect(Math.abs(at("D65", nm) - expected)).toBeLessThan(1e-3);
  });

  it("D50 and D55 at 380, 450, 700 and 780 nm, to the decimals of the tables", () => {
    expect([380, 450, 700, 780].map((nm) => at("D50", nm).toFixed(1))).toEqual([
      "24.5",
      "87.2",
      "91.6",
      "78.3",
    ]);
    expect([380, 450, 700, 780].map((nm) => at("D55", nm).toFixed(2))).toEqual([
      "32.58",
      "97.99",
      "82.84",
      "71.82",
    ]);
  });
});

describe("published (seen): chromaticities of CIE 15", () => {
  it.each([
    ["A", 0.44758, 0.40745],
    ["C", 0.31006, 0.31616],
    ["D50", 0.3457, 0.3585],
    ["D55", 0.33243, 0.34744],
    ["D65", 0.3127, 0.329],
    ["D75", 0.29903, 0.31488],
    ["F2", 0.3721, 0.3751],
    ["F7", 0.3129, 0.3292],
    ["F11", 0.3805, 0.3769],
    ["LED-B3", 0.3756, 0.3723],
  ])("%s for 2°", (name, x, y) => {
    const [ours, other] = chromaticity(name, "1931-2");
    expect(Math.abs(ours - x)).toBeLessThan(5e-5);
    expect(Math.abs(other - y)).toBeLessThan(5e-5);
  });

  it.each([
    ["A", 0.45117, 0.40594],
    ["C", 0.31039, 0.31905],
    ["D50", 0.34773, 0.35952],
    ["D55", 0.33412, 0.34877],
    ["D65", 0.31382, 0.331],
    ["D75", 0.29968, 0.3174],
  ])("%s for 10°", (name, x, y) => {
    const [ours, other] = chromaticity(name, "1964-10");
    expect(Math.abs(ours - x)).toBeLessThan(1.5e-5);
    expect(Math.abs(other - y)).toBeLessThan(1.5e-5);
  });

  // They agree with sums at 1 nm to their last digit; the white points of ASTM E308, which we hold to, with sums
  // at 5 nm.
  it.each([
    ["F2", 0.37925, 0.36733],
    ["F7", 0.31569, 0.3296],
    ["F11", 0.38541, 0.37123],
  ])("%s for 10°, within what the summation interval does", (name, x, y) => {
    const [ours, other] = chromaticity(name, "1964-10");
    expect(Math.abs(ours - x)).toBeLessThan(1.5e-4);
    expect(Math.abs(other - y)).toBeLessThan(1.5e-4);
  });

  it("computed by another program: LED-B3 for 10°", () => {
    const [x, y] = chromaticity("LED-B3", "1964-10");
    expect(Math.abs(x - 0.380851979328052)).toBeLessThan(3e-6);
    expect(Math.abs(y - 0.368518548904765)).toBeLessThan(3e-6);
  });
});

describe("daylight", () => {
  it.each([
    [4000, 0.382343625, 0.383766261015578],
    [7000, 0.30535743148688, 0.321646345474552],
    [25000, 0.24985367, 0.254799464210944],
  ])("published (seen): colour-science's CIE D locus at %i K", (temperature, x, y) => {
    const [ours, other] = daylightChromaticity(temperature);
    expect(ours).toBeCloseTo(x, 9);
    expect(other).toBeCloseTo(y, 9);
  });

  it("of any temperature lies on the locus of the 1931 observer, within the rounding of M1 and M2", () => {
    fc.assert(
      fc.property(fc.integer({ min: 4000, max: 25000 }), (temperature) => {
        const [x, y] = chromaticity(`D${temperature}K`, "1931-2");
        const [expectedX, expectedY] = daylightChromaticity(temperature);
        expect(Math.abs(x - expectedX)).toBeLessThan(2e-4);
        expect(Math.abs(y - expectedY)).toBeLessThan(2e-4);
      }),
      { numRuns: 40 },
    );
  });

  it("is 100 at 560 nm at every temperature", () => {
    for (const temperature of [4000, 5003, 6504, 12345, 25000]) {
      expect(daylight(temperature).values[40]).toBe(100);
    }
  });

  it.each([3999, 25001, Number.NaN])("refuses %d K", (temperature) => {
    expect(() => daylight(temperature, undefined, "lamp")).toThrow(expect.objectContaining({ path: "lamp" }));
  });
});

describe("names", () => {
  it("of daylight by temperature are the formula at that temperature, of D50 at 5000·1.4388/1.4380 K", () => {
    expect(illuminantSpectrum("D6000K").values).toEqual(daylight(6000).values);
    expect(illuminantSpectrum("D50").values).toEqual(daylight((5000 * 1.4388) / 1.438).values);
  });

  it.each(["D65 ", "d65", "E", "D60", "D3999K", "D25001K", "D6000", "__proto__", "constructor"])(
    'refuses "%s", listing what is known',
    (name) => {
      const refused = expect.objectContaining({
        code: "unknown-illuminant",
        path: "viewing.illuminants[1].name",
        reason: expect.stringContaining(
          "A, C, D50, D55, D65, D75, F2, F7, F11, LED-B3, daylight D4000K to D25000K",
        ),
      });
      expect(() => illuminantSpectrum(name, "viewing.illuminants[1].name")).toThrow(refused);
      expect(() => checkIlluminant(name, "viewing.illuminants[1].name")).toThrow(refused);
    },
  );

  it.each([...ILLUMINANT_NAMES, "D4000K", "D25000K"])('takes "%s"', (name) => {
    expect(checkIlluminant(name, "name")).toBe(name);
  });
});
