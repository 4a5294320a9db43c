import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { COLOURS } from "../../../src/scene/readings/colourReading.js";
import { COMPARISON } from "../../../src/scene/readings/comparison.js";
import { EYE_SCALES, rangeOfGrade, stepsOf } from "../../../src/scene/readings/greyScale.js";

const colour = { geometry: "45:0", illuminant: "D65", observer: "1964-10", lab: [50, 1, 2] };
const seen = { card: "card 1", illuminant: "D65", scale: "iso-3668", targetIs: { lighter: 1 } };
const given = (targetIs: unknown, scale = "iso-3668") => COMPARISON.check({ ...seen, targetIs, scale }, "c");

describe("a colour", () => {
  it("has one reading and the usual sd unless said", () => {
    expect(COLOURS.check([colour], "colours")).toEqual([{ ...colour, sd: 0.15, replicates: 1 }]);
  });

  it.each(["geometry", "illuminant", "observer"])("says why it needs its %s", (key) => {
    const { [key as keyof typeof colour]: _, ...rest } = colour;
    expect(() => COLOURS.check([rest], "colours")).toThrow(
      /^colours\[0\]\.\w+: needed: .*instrument.*\[missing\]$/,
    );
  });

  it("is given as L*a*b* or as XYZ, not both, not neither", () => {
    const { lab, ...bare } = colour;
    expect(() => COLOURS.check([bare], "colours")).toThrow(/\[missing\]/);
    expect(() => COLOURS.check([{ ...colour, xyz: lab }], "colours")).toThrow(/\[duplicate\]/);
    expect(COLOURS.check([{ ...bare, xyz: [20, 20, 20] }], "colours")).toHaveLength(1);
  });
});

describe("a comparison", () => {
  it("is of grades or a match", () => {
    expect(given("matches").targetIs).toBe("matches");
    expect(given({ lighter: 1, yellower: -2 }).targetIs).toEqual({ lighter: 1, yellower: -2 });
  });

  it("refuses words that mean two things, with what to say instead", () => {
    expect(() => given({ cleaner: 1 })).toThrow(/"cleaner" .*moreChromatic.*\[unknown-word\]/);
    expect(() => given({ darker: 1 })).toThrow(/`lighter` with a grade below 0/);
    expect(() => given("warmer")).toThrow(/`redder` or `yellower`/);
    expect(() => given("constructor")).toThrow(/\[unknown-word\]/);
  });

  it("refuses what contradicts itself and what says nothing", () => {
    expect(() => given({ redder: 1, moreChromatic: 1 })).toThrow(/\[duplicate\]/);
    expect(() => given({})).toThrow(/\[missing\]/);
  });

  it("has only grades of its scale", () => {
    expect(() => given({ lighter: 1.5 })).toThrow(/no grade 1.5.*\[out-of-range\]/);
    expect(given({ lighter: -4.5 }, "iso-105-a02").targetIs).toEqual({ lighter: -4.5 });
    expect(() => given({ lighter: 0 }, "iso-105-a02")).toThrow(/no grade 0/);
  });
});

describe("the differences that grades stand for", () => {
  it("are those of ISO 105-A02, half way to the neighbours", () => {
    expect(rangeOfGrade("iso-105-a02", 5)).toEqual({ low: -0.4, high: 0.4 });
    expect(rangeOfGrade("iso-105-a02", 3)?.low).toBeCloseTo((2.5 + 3.4) / 2, 12);
    expect(rangeOfGrade("iso-105-a02", 3)?.high).toBeCloseTo((3.4 + 4.8) / 2, 12);
    expect(rangeOfGrade("iso-105-a02", 1)?.high).toBeCloseTo(2 * 13.6, 12);
  });

  it("leave no gap, hold their own, and turn about with the sign", () => {
    fc.assert(
      fc.property(fc.constantFrom(...EYE_SCALES), (scale) => {
        const steps = stepsOf(scale);
        steps.forEach(({ grade, deltaE }, i) => {
          const one = rangeOfGrade(scale, grade);
          expect(one && one.low <= deltaE && deltaE <= one.high).toBe(true);
          if (i === 0) return;
          expect(rangeOfGrade(scale, steps[i - 1].grade)?.high).toBe(one?.low);
          const other = rangeOfGrade(scale, -grade);
          expect([other?.low, other?.high]).toEqual([-(one?.high ?? 0), -(one?.low ?? 0)]);
        });
      }),
    );
  });
});
