import { describe, expect, it } from "vitest";
import { ANGLES, createDirections } from "./directions.js";
import { createEffectReader, EFFECT_PHYSICS } from "./effectPaint.js";
import { EFFECT_TONERS, GRADES, WAVELENGTHS } from "./effectToners.js";
import { reflectanceFactors } from "./film.js";
import { flakeOptics } from "./flakes.js";

const plain = createEffectReader({ ...EFFECT_PHYSICS, whiteTilts: 0, depthTilt: 0 });
const read = createEffectReader();
const as = { tilt: 0 };
const silver = { "coarse-silver": 60, blue: 10, black: 5 };
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

describe("effect paint", () => {
  it("keeps to shares, and is the film that its toners add up to", () => {
    const once = plain({ grams: silver }, as);
    const twice = plain({ grams: { black: 10, blue: 20, "coarse-silver": 120 } }, as);
    const directions = createDirections();
    const share = (id: string) => (silver[id as keyof typeof silver] ?? 0) / 75;
    const band = 11;
    const sum = (key: "absorption" | "scattering") =>
      EFFECT_TONERS.reduce((all, toner) => all + share(toner.id) * toner[key][band], 0);
    const { area, width, unruly, isClear, mirror } = GRADES["coarse-silver"];
    const flakes = { area: 0.8 * area, width, unruly, isClear, mirror: mirror(WAVELENGTHS[band]) };
    const layer = {
      absorption: sum("absorption"),
      scattering: sum("scattering"),
      flakes: [flakeOptics(flakes, directions, 16)],
      build: 1,
    };
    const exact = reflectanceFactors([layer], EFFECT_PHYSICS.ground, directions, 16);
    ANGLES.forEach((angle, a) => {
      expect(once[angle][band] / twice[angle][band]).toBeCloseTo(1, 9);
      // The higher modes are interpolated over the bands.
      expect(once[angle][band] / exact[a]).toBeCloseTo(1, 4);
    });
  });

  it("has a face far above a perfect white, and a dark flop", () => {
    const found = read({ grams: silver }, as);
    expect(mean(found["45as15"])).toBeGreaterThan(1.5);
    expect(mean(found["45as110"])).toBeLessThan(0.03);
  });

  it("a gun that lays flakes steeper darkens the face and lightens 45°, all bands alike", () => {
    const flat = read({ grams: silver }, as);
    const steep = read({ grams: silver }, { tilt: 0.1 });
    const ratios = (angle: "45as15" | "45as45") =>
      steep[angle].map((value, band) => value / flat[angle][band]);
    expect(Math.max(...ratios("45as15"))).toBeLessThan(0.95);
    expect(Math.min(...ratios("45as45"))).toBeGreaterThan(1.05);
    for (const angle of ["45as15", "45as45"] as const) {
      expect(Math.max(...ratios(angle)) / Math.min(...ratios(angle))).toBeLessThan(1.06);
    }
  });

  it("white tilts the flakes, and depth does: neither is what pigment alone would do", () => {
    const grams = { "coarse-silver": 60, white: 6, black: 4 };
    const tilted = read({ grams }, as)["45as45"];
    const untilted = createEffectReader({ ...EFFECT_PHYSICS, whiteTilts: 0 })({ grams }, as)["45as45"];
    expect(mean(tilted)).toBeGreaterThan(1.05 * mean(untilted));
    const even = createEffectReader({ ...EFFECT_PHYSICS, depthTilt: 0 })({ grams: silver }, as)["45as15"];
    expect(Math.abs(mean(read({ grams: silver }, as)["45as15"]) / mean(even) - 1)).toBeGreaterThan(0.02);
  });

  it("another grade is another spread over the angles, which no one width brings", () => {
    const own = mean(read({ grams: silver }, as)["45as15"]) / mean(read({ grams: silver }, as)["45as45"]);
    const other = read({ grams: silver, grades: { "coarse-silver": "ground-silver" } }, as);
    expect(mean(other["45as15"]) / mean(other["45as45"])).toBeLessThan(0.7 * own);
  });

  it("a thin film shows its ground at the flop, a film of usual build of silver hardly", () => {
    const reader = (ground: number) => createEffectReader({ ...EFFECT_PHYSICS, ground });
    const change = (build: number) => {
      const [dark, light] = [0.05, 0.6].map((ground) =>
        reader(ground)({ grams: silver }, { tilt: 0, build }),
      );
      return mean(light["45as110"]) / mean(dark["45as110"]);
    };
    expect(change(0.15)).toBeGreaterThan(1.5);
    expect(change(1)).toBeLessThan(1.02);
  });

  it("pearl changes colour between face and flop", () => {
    const found = read({ grams: { "blue-pearl": 60, black: 10 } }, as);
    const blueness = (angle: "45as15" | "45as110") => found[angle][5] / found[angle][25];
    expect(blueness("45as15")).toBeGreaterThan(2 * blueness("45as110"));
  });
});
