import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { GEOMETRIES, type Geometry, geometryFacts } from "../../src/surface/geometry.js";
import { SURFACE, surfaceFromIndex } from "../../src/surface/surface.js";
import { refusal } from "../support/refusal.js";

const included = { geometry: "d:8 specular included", k1: 0.04, k2: 0.6 };
const excluded = { ...included, geometry: "d:8 specular excluded" };
const directional = { ...included, geometry: "45as25" };
const geometries = Object.keys(GEOMETRIES) as Geometry[];

describe("SURFACE", () => {
  it.each([
    included,
    { ...excluded, specularRest: 0 },
    { ...excluded, specularRest: 1 },
    { ...directional, crossing: 0.41 },
    { ...directional, brightness: 3.4 },
    { ...included, k1: 0, k2: 0 },
  ])("passes %o through", (surface) => {
    expect(SURFACE.check(surface, "surfaces[0]")).toEqual(surface);
  });

  it("refuses a key that it does not know", () => {
    const act = () => SURFACE.check({ ...included, gloss: 92 }, "s");
    expect(refusal(act)).toEqual({ code: "unknown-key", path: "s.gloss" });
  });

  it.each([
    ["nothing", undefined, "missing", "s"],
    ["a number", 3, "wrong-type", "s"],
    ["a list", [0.04, 0.6], "wrong-type", "s"],
    ["no geometry", { k1: 0.04, k2: 0.6 }, "missing", "s.geometry"],
    ["an unknown geometry", { ...included, geometry: "0:45" }, "unknown-geometry", "s.geometry"],
    ["a name from the prototype", { ...included, geometry: "toString" }, "unknown-geometry", "s.geometry"],
    ["no k1", { geometry: "45:0", k2: 0.6 }, "missing", "s.k1"],
    ["k2 as text", { ...included, k2: "0.6" }, "wrong-type", "s.k2"],
    ["k1 not a number", { ...included, k1: Number.NaN }, "not-finite", "s.k1"],
    ["k1 below 0", { ...included, k1: -0.01 }, "out-of-range", "s.k1"],
    ["k1 in per cent", { ...included, k1: 4 }, "out-of-range", "s.k1"],
    ["k2 of 1", { ...included, k1: 0, k2: 1 }, "out-of-range", "s.k2"],
    ["k1 of 1", { ...included, k1: 1, k2: 0 }, "out-of-range", "s.k1"],
    ["k1 + k2 of 1", { ...included, k1: 0.25, k2: 0.75 }, "out-of-range", "s.k2"],
    ["a rest of a specular included", { ...included, specularRest: 0.1 }, "unknown-key", "s.specularRest"],
    ["a rest above 1", { ...excluded, specularRest: 1.1 }, "out-of-range", "s.specularRest"],
    ["a rest below 0", { ...excluded, specularRest: -0.1 }, "out-of-range", "s.specularRest"],
    ["a crossing of diffuse light", { ...excluded, crossing: 0.4 }, "unknown-key", "s.crossing"],
    ["a crossing of 0", { ...directional, crossing: 0 }, "out-of-range", "s.crossing"],
    ["a crossing above 1", { ...directional, crossing: 1.01 }, "out-of-range", "s.crossing"],
    [
      "an infinite crossing",
      { ...directional, crossing: Number.POSITIVE_INFINITY },
      "not-finite",
      "s.crossing",
    ],
    ["a brightness of diffuse light", { ...excluded, brightness: 2 }, "unknown-key", "s.brightness"],
    ["a brightness below 1", { ...directional, brightness: 0.9 }, "out-of-range", "s.brightness"],
    ["a crossing of null", { ...directional, crossing: null }, "wrong-type", "s.crossing"],
  ])("refuses %s", (_, value, code, path) => {
    expect(refusal(() => SURFACE.check(value, "s"))).toEqual({ code, path });
  });
});

describe("surfaceFromIndex", () => {
  it.each(geometries)(
    "%s at n = 1.5: computed (k1 0.04 at 0°, 0.0502399 at 45°; k2 0.5963458)",
    (geometry) => {
      const { kind } = geometryFacts(geometry);
      const surface = surfaceFromIndex(geometry, 1.5);
      expect(surface.geometry).toBe(geometry);
      expect(surface.k1).toBeCloseTo(kind === "directional" ? 0.050239911012236 : 0.04, 14);
      expect(surface.k2).toBeCloseTo(0.596345759707712, 12);
      expect("crossing" in surface).toBe(kind === "directional");
    },
  );

  // (1 − F(45°))(1 − F(view))/2.25 with F(0°) = 0.04 and F(45°) as published (seen: tests of iadpython)
  it("45:0 crosses with (1 − 0.05023991)(1 − 0.04)/2.25", () => {
    const expected = ((1 - 0.050239911012236) * 0.96) / 2.25;
    expect(surfaceFromIndex("45:0", 1.5).crossing).toBeCloseTo(expected, 14);
    expect(surfaceFromIndex("45as45", 1.5).crossing).toBeCloseTo(expected, 14);
  });

  // F(60°) of n = 1.5 = 0.0891867128, published (seen: tests of mitsuba3, cosine 0.5)
  it("45as-15 leaves at 60°", () => {
    const expected = ((1 - 0.050239911012236) * (1 - 0.0891867128)) / 2.25;
    expect(surfaceFromIndex("45as-15", 1.5).crossing).toBeCloseTo(expected, 10);
  });

  it("views at |45° − aspecular| from the normal", () => {
    for (const geometry of geometries) {
      const aspecular = /^45as(-?\d+)$/.exec(geometry);
      if (aspecular) expect(geometryFacts(geometry).view, geometry).toBe(Math.abs(45 - Number(aspecular[1])));
    }
  });

  it("makes surfaces that SURFACE takes, for every geometry and index", () => {
    fc.assert(
      fc.property(fc.constantFrom(...geometries), fc.integer({ min: 1010, max: 2000 }), (geometry, n) => {
        const surface = surfaceFromIndex(geometry, n / 1000);
        expect(SURFACE.check(surface, "")).toEqual(surface);
      }),
      { numRuns: 300 },
    );
  });

  it.each([
    [1, "out-of-range"],
    [2.7, "out-of-range"],
    [Number.NaN, "not-finite"],
  ])("refuses an index of %d", (n, code) => {
    expect(refusal(() => surfaceFromIndex("45:0", n))).toEqual({ code, path: "n" });
  });
});
