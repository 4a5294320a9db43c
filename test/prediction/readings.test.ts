import { describe, expect, it } from "vitest";
import { alignReadings } from "../../src/scene/alignReadings.js";
import { commonGrid } from "../../src/scene/commonGrid.js";
import { rangeWarnings, resampledWarnings } from "../../src/scene/readingWarnings.js";
import type { Geometry } from "../../src/surface/geometry.js";
import type { Reading } from "../../src/surface/reading.js";
import { cropTonerSet } from "../../src/toners/cropTonerSet.js";
import type { TonerSet } from "../../src/toners/tonerSet.js";

/** A reading whose value says its wavelength: 0.4 at 400 nm. */
const reading = (start: number, step: number, count: number, geometry: Geometry = "45:0"): Reading => ({
  geometry,
  grid: { start, step, count },
  reflectance: Array.from({ length: count }, (_, i) => (start + i * step) / 1000),
});

describe("commonGrid", () => {
  const toners = { start: 380, step: 10, count: 38 };

  it.each([
    ["the toners' own where all is covered", [reading(360, 10, 48)], toners],
    [
      "the part that every reading covers",
      [reading(400, 10, 31), reading(380, 10, 36)],
      { start: 400, step: 10, count: 31 },
    ],
    ["whole steps of the toners' grid only", [reading(395, 5, 60)], { start: 400, step: 10, count: 30 }],
  ])("is %s", (_, readings, expected) => {
    expect(commonGrid(toners, readings, "card.readings")).toEqual(expected);
  });

  it("refuses less than six bands in common", () => {
    expect(() => commonGrid(toners, [reading(710, 10, 10)], "card.readings")).toThrow(
      /^card\.readings: .*at least 6 are needed \[outside-grid\]$/,
    );
  });
});

describe("alignReadings", () => {
  const grid = { start: 420, step: 10, count: 7 };
  const expected = [0.42, 0.43, 0.44, 0.45, 0.46, 0.47, 0.48];

  it("cuts a reading of the same step to the grid, and interpolates others, in the order of the geometries", () => {
    const readings = [reading(400, 10, 31), reading(400, 20, 16, "d:8 specular excluded")];
    const aligned = alignReadings(readings, ["d:8 specular excluded", "45:0"], grid, "card.readings");
    expect(aligned).toHaveLength(14);
    [...expected, ...expected].forEach((value, i) => {
      expect(aligned[i]).toBeCloseTo(value, 12);
    });
  });

  it("says which geometry was not read", () => {
    expect(() => alignReadings([reading(400, 10, 31)], ["45as15"], grid, "card.readings")).toThrow(
      /^card\.readings: .*"45as15".*\[unknown-geometry\]$/,
    );
  });
});

describe("cropTonerSet", () => {
  it("keeps the same wavelengths and invents none", () => {
    const values = Array.from({ length: 31 }, (_, i) => 400 + 10 * i);
    const set: TonerSet = {
      grid: { start: 400, step: 10, count: 31 },
      surfaces: [{ geometry: "45:0", k1: 0.04, k2: 0.6 }],
      toners: [{ id: "a", k: { "45:0": values }, s: { "45:0": Float64Array.from(values) } }],
    };
    const cropped = cropTonerSet(set, { start: 430, step: 10, count: 4 });
    expect(cropped.toners[0].k["45:0"]).toEqual([430, 440, 450, 460]);
    expect(Array.from(cropped.toners[0].s["45:0"] ?? [])).toEqual([430, 440, 450, 460]);
    expect(cropTonerSet(set, set.grid)).toBe(set);
  });
});

describe("warnings about readings", () => {
  it("tell interpolation from mere cutting", () => {
    const grid = { start: 400, step: 10, count: 31 };
    const codes = (one: Reading) =>
      resampledWarnings([one], grid, "card.readings").map(({ code, path }) => [code, path]);
    expect(codes(reading(360, 10, 48))).toEqual([]);
    expect(codes(reading(400, 5, 61))).toEqual([["resampled", "card.readings[0]"]]);
    expect(codes(reading(395, 10, 32))).toEqual([["resampled", "card.readings[0]"]]);
  });

  it("tell a range short of 400–700 nm", () => {
    expect(rangeWarnings({ start: 400, step: 10, count: 31 })).toEqual([]);
    expect(rangeWarnings({ start: 400, step: 10, count: 30 })).toHaveLength(1);
    expect(rangeWarnings({ start: 410, step: 10, count: 31 })).toHaveLength(1);
  });
});
