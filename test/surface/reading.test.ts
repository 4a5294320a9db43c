import { describe, expect, it } from "vitest";
import { READING, READINGS } from "../../src/surface/reading.js";
import { refusal } from "../support/refusal.js";

const reading = {
  geometry: "d:8 specular included",
  grid: { start: 400, step: 100, count: 4 },
  reflectance: [0.1, 0.2, 0.3, 0.4],
};
const withReflectance = (reflectance: unknown) => ({ ...reading, reflectance });

describe("READING", () => {
  it("passes a reading through, as a list or as a typed array", () => {
    expect(READING.check(reading, "r")).toEqual(reading);
    const typed = withReflectance(Float64Array.of(0, 1, 1.4, 2));
    expect(READING.check(typed, "r")).toEqual(typed);
  });

  it.each([
    ["nothing", undefined, "missing", "r"],
    ["a list", [reading], "wrong-type", "r"],
    ["no geometry", { ...reading, geometry: undefined }, "missing", "r.geometry"],
    ["an unknown geometry", { ...reading, geometry: "45as20" }, "unknown-geometry", "r.geometry"],
    ["no grid", { ...reading, grid: undefined }, "missing", "r.grid"],
    ["a grid without step", { ...reading, grid: { start: 400, count: 4 } }, "missing", "r.grid.step"],
    ["no reflectance", withReflectance(undefined), "missing", "r.reflectance"],
    ["a text for a list", withReflectance("0.1 0.2 0.3 0.4"), "wrong-type", "r.reflectance"],
    ["one value too few", withReflectance([0.1, 0.2, 0.3]), "wrong-length", "r.reflectance"],
    ["one value too many", withReflectance([0.1, 0.2, 0.3, 0.4, 0.5]), "wrong-length", "r.reflectance"],
    ["far too many values", withReflectance(new Float64Array(20_000)), "too-large", "r.reflectance"],
    ["a value below 0", withReflectance([0.1, -0.2, 0.3, 0.4]), "out-of-range", "r.reflectance[1]"],
    ["a value of text", withReflectance([0.1, 0.2, "0.3", 0.4]), "wrong-type", "r.reflectance[2]"],
    ["a value that is none", withReflectance([0.1, 0.2, 0.3, Number.NaN]), "not-finite", "r.reflectance[3]"],
    // biome-ignore lint/suspicious/noSparseArray: a hole in the list is what is tested
    ["a hole", withReflectance([0.1, , 0.3, 0.4]), "missing", "r.reflectance[1]"],
    ["per cent", withReflectance([10, 20, 30, 40]), "percent-not-fraction", "r.reflectance[0]"],
    [
      "per cent after a fraction",
      withReflectance([1.9, 2.1, 3, 4]),
      "percent-not-fraction",
      "r.reflectance[1]",
    ],
  ])("refuses %s", (_, value, code, path) => {
    expect(refusal(() => READING.check(value, "r"))).toEqual({ code, path });
  });
});

describe("READING close to the specular angle", () => {
  it.each(["45as-15", "45as15", "45as25"])("lets flake at %s be up to twenty times a white", (geometry) => {
    const bright = { ...withReflectance([2.5, 20, 1, 1]), geometry };
    expect(READING.check(bright, "r")).toEqual(bright);
    const brighter = { ...withReflectance([2.5, 20.1, 1, 1]), geometry };
    expect(refusal(() => READING.check(brighter, "r"))).toEqual({
      code: "percent-not-fraction",
      path: "r.reflectance[1]",
    });
  });

  it.each(["45as45", "45as75", "45as110", "45:0"])("does not at %s", (geometry) => {
    const bright = { ...withReflectance([2, 2.1, 1, 1]), geometry };
    expect(refusal(() => READING.check(bright, "r")).path).toBe("r.reflectance[1]");
  });
});

describe("READINGS", () => {
  const other = { ...reading, geometry: "45:0" };

  it("passes readings of different geometries through in their order", () => {
    expect(READINGS.check([other, reading], "card").map(({ geometry }) => geometry)).toEqual([
      "45:0",
      "d:8 specular included",
    ]);
  });

  it.each([
    ["none", [], "wrong-length", "card"],
    ["a record", reading, "wrong-type", "card"],
    ["one geometry twice", [reading, other, reading], "duplicate", "card[2].geometry"],
    ["a bad one", [reading, { ...other, reflectance: [] }], "wrong-length", "card[1].reflectance"],
  ])("refuses %s", (_, value, code, path) => {
    expect(refusal(() => READINGS.check(value, "card"))).toEqual({ code, path });
  });
});
