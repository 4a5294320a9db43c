import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { DAYLIGHT_COMPONENTS } from "../../src/colorimetry/data/daylightComponents.js";
import { FLUORESCENTS } from "../../src/colorimetry/data/fluorescents.js";
import { ILLUMINANT_C } from "../../src/colorimetry/data/illuminantC.js";
import { LED_B3 } from "../../src/colorimetry/data/ledB3.js";
import { daylight, daylightChromaticity } from "../../src/colorimetry/daylight.js";
import {
  ILLUMINANT,
  ILLUMINANT_NAMES,
  type IlluminantName,
  illuminantSpectrum,
} from "../../src/colorimetry/illuminant.js";
import { tristimulusWeights } from "../../src/colorimetry/weights.js";
import { DEFAULT_GRID } from "../../src/spectra/grid.js";
import {
  CIE15_CHROMATICITIES,
  CIE15_DAYLIGHT_LOCUS,
  CIE15_POWERS,
} from "../../src/verification/data/cie15.js";

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
const chromaticity = (illuminant: IlluminantName, observer: "1931-2" | "1964-10") => {
  const [x, y, z] = tristimulusWeights({ grid: DEFAULT_GRID, illuminant, observer }).white;
  return [x / (x + y + z), y / (x + y + z)];
};
const at = (name: IlluminantName, nm: number) => {
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

it.each(CIE15_POWERS)("published (seen): %s at %d nm is %d within %d", (name, nm, expected, allowed) => {
  expect(Math.abs(at(name, nm) - expected)).toBeLessThan(allowed);
});

describe("published (seen): chromaticities of CIE 15", () => {
  it.each(CIE15_CHROMATICITIES)("%s for %s: %d, %d within %d", (name, observer, x, y, allowed) => {
    const [ours, other] = chromaticity(name, observer);
    expect(Math.abs(ours - x)).toBeLessThan(allowed);
    expect(Math.abs(other - y)).toBeLessThan(allowed);
  });

  it("computed by another program: LED-B3 for 10°", () => {
    const [x, y] = chromaticity("LED-B3", "1964-10");
    expect(Math.abs(x - 0.380851979328052)).toBeLessThan(3e-6);
    expect(Math.abs(y - 0.368518548904765)).toBeLessThan(3e-6);
  });
});

describe("daylight", () => {
  it.each(CIE15_DAYLIGHT_LOCUS)(
    "published (seen): colour-science's CIE D locus at %i K",
    (temperature, x, y) => {
      const [ours, other] = daylightChromaticity(temperature);
      expect(ours).toBeCloseTo(x, 9);
      expect(other).toBeCloseTo(y, 9);
    },
  );

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

describe("a refusal that was given no place", () => {
  it("names none", () => {
    const nowhere = expect.objectContaining({ path: "" });
    expect(() => illuminantSpectrum("candle" as IlluminantName)).toThrow(nowhere);
    expect(() => daylight(1)).toThrow(nowhere);
    expect(() => daylightChromaticity(1)).toThrow(nowhere);
  });
});

describe("names", () => {
  it("of daylight by temperature are the formula at that temperature, of D50 at 5000·1.4388/1.4380 K", () => {
    expect(illuminantSpectrum("D6000K").values).toEqual(daylight(6000).values);
    expect(illuminantSpectrum("D50").values).toEqual(daylight((5000 * 1.4388) / 1.438).values);
  });

  it.each([
    "D65 ",
    "d65",
    "E",
    "D60",
    "D3999K",
    "D25001K",
    "D6000",
    "XD6000K",
    "D6000Kelvin",
    "__proto__",
    "constructor",
  ])('refuses "%s", listing what is known', (name) => {
    const refused = expect.objectContaining({
      code: "unknown-illuminant",
      path: "viewing.illuminants[1].name",
      reason: expect.stringContaining(
        "A, C, D50, D55, D65, D75, F2, F7, F11, LED-B3, daylight D4000K to D25000K",
      ),
    });
    expect(() => illuminantSpectrum(name as IlluminantName, "viewing.illuminants[1].name")).toThrow(refused);
    expect(() => ILLUMINANT.check(name, "viewing.illuminants[1].name")).toThrow(refused);
  });

  it.each([...ILLUMINANT_NAMES, "D4000K", "D25000K"])('takes "%s"', (name) => {
    expect(ILLUMINANT.check(name, "name")).toBe(name);
  });
});
