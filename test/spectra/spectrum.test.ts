import { describe, expect, it } from "vitest";
import { type SpectralPoint, uniformSpectrum } from "../../src/spectra/spectrum.js";

const points = (...nm: readonly number[]): SpectralPoint[] => nm.map((x) => ({ nm: x, value: x / 1000 }));

describe("uniformSpectrum", () => {
  it("turns a table into grid and values", () => {
    const spectrum = uniformSpectrum(points(400, 420, 440, 460), "rows");
    expect(spectrum.grid).toEqual({ start: 400, step: 20, count: 4 });
    expect(Array.from(spectrum.values)).toEqual([0.4, 0.42, 0.44, 0.46]);
  });

  it("takes wavelengths that are uniform but for their printed decimals", () => {
    const spectrum = uniformSpectrum(points(380, 383.33, 386.67, 390, 393.33, 396.67, 400), "rows");
    expect(spectrum.grid.step).toBeCloseTo(10 / 3, 12);
  });

  it.each([
    ["a missing wavelength", points(400, 410, 420, 440, 450), "gap", "rows[3].nm"],
    ["a gap at once", points(400, 420, 430, 440), "gap", "rows[1].nm"],
    ["wavelengths off the grid", points(400, 410, 420.5, 430), "gap", "rows[2].nm"],
    ["a wavelength twice", points(400, 410, 410, 420), "duplicate", "rows[2].nm"],
    ["falling wavelengths", points(400, 420, 410, 430), "out-of-range", "rows[2].nm"],
    ["ultraviolet", points(350, 360, 370), "out-of-range", "rows[0].nm"],
    ["no number", [...points(400, 410), { nm: 420, value: Number.NaN }], "not-finite", "rows[2].value"],
    ["no wavelength", [...points(400, 410), { nm: Number.NaN, value: 1 }], "not-finite", "rows[2].nm"],
    ["too little", points(400, 410), "wrong-length", "rows"],
    ["nothing", [], "wrong-length", "rows"],
  ])("refuses %s", (_, rows, code, path) => {
    expect(() => uniformSpectrum(rows, "rows")).toThrow(expect.objectContaining({ code, path }));
  });
});
