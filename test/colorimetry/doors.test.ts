import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ciede2000 } from "../../src/colorimetry/ciede2000.js";
import * as inside from "../../src/colorimetry/lab.js";
import { xyzFromReflectance } from "../../src/colorimetry/xyz.js";
import * as door from "../../src/doors/colorimetry.js";
import { srgbHex } from "../../src/doors/report.js";
import * as spectra from "../../src/doors/spectra.js";
import { refusal } from "../support/refusal.js";

const LAB: door.Lab = [50, 10, -10];
const WHITE: door.Xyz = [95, 100, 108];
const GRID = { start: 400, step: 10, count: 31 };
const weights = door.tristimulusWeights({ grid: GRID, illuminant: "D65", observer: "1964-10" });
const grey = new Array<number>(31).fill(0.5);

// biome-ignore lint/suspicious/noExplicitAny: programs without types may pass anything.
const anything = (value: unknown) => value as any;

describe("doors for colour refuse what is no colour, with a code and a place", () => {
  it.each<[string, () => unknown, string, string]>([
    ["a NaN in a Lab", () => door.ciede2000([50, Number.NaN, 0], LAB), "not-finite", "reference[1]"],
    ["two numbers", () => door.ciede2000(LAB, anything([50, 0])), "wrong-length", "sample"],
    ["four numbers", () => door.cie76(anything([50, 0, 0, 1]), LAB), "wrong-length", "reference"],
    ["texts for numbers", () => door.cie76(LAB, anything(["50", "0", "0"])), "wrong-type", "sample[0]"],
    ["no colour at all", () => door.cie94(anything(undefined), LAB), "missing", "reference"],
    [
      "a colour without end",
      () => door.cmc(LAB, [50, 0, Number.NEGATIVE_INFINITY]),
      "not-finite",
      "sample[2]",
    ],
    ["a number that overflows", () => door.cie76(LAB, [50, 1e300, 0]), "out-of-range", "sample[1]"],
    ["a lightness without L99", () => door.din99(LAB, [-70, 0, 0]), "out-of-range", "sample[0]"],
    ["a factor of 0", () => door.cmc(LAB, LAB, { l: 0, c: 1 }), "out-of-range", "options.l"],
    ["a factor left out", () => door.cie94(LAB, LAB, anything({ kL: 1 })), "missing", "options.kC"],
    ["factors that are none", () => door.ciede2000(LAB, LAB, anything(2)), "wrong-type", "options"],
    ["a metric of nothing", () => door.deltaE00Metric(anything(null)), "wrong-type", "lab"],
    ["XYZ without its white", () => door.labFromXyz(WHITE, anything(undefined)), "missing", "white"],
    ["a black white", () => door.labFromXyz(WHITE, [95, 0, 108]), "out-of-range", "white[1]"],
    [
      "a white of per cent of nothing",
      () => door.xyzFromLab(LAB, anything([95, 100])),
      "wrong-length",
      "white",
    ],
    ["slopes at NaN", () => door.labByXyz([1, 2, Number.NaN], WHITE), "not-finite", "xyz[2]"],
    ["a hue that is none", () => door.labFromLch([50, 10, Number.NaN]), "not-finite", "lch[2]"],
    ["chroma of a text", () => door.lchFromLab(anything("grey")), "wrong-type", "lab"],
    [
      "per cent",
      () => door.xyzFromReflectance(grey.with(3, 50), weights),
      "percent-not-fraction",
      "reflectance[3]",
    ],
    [
      "less than no light",
      () => door.xyzFromReflectance(grey.with(0, -0.1), weights),
      "out-of-range",
      "reflectance[0]",
    ],
    [
      "a band of NaN",
      () => door.xyzFromReflectance(grey.with(30, Number.NaN), weights),
      "not-finite",
      "reflectance[30]",
    ],
    [
      "a band of text",
      () => door.xyzFromReflectance(anything(grey.map(String)), weights),
      "wrong-type",
      "reflectance[0]",
    ],
    ["bands too few", () => door.xyzFromReflectance(grey.slice(1), weights), "wrong-length", "reflectance"],
    ["no reflectance", () => door.xyzFromReflectance(anything(null), weights), "wrong-type", "reflectance"],
    ["no weights", () => door.xyzFromReflectance(grey, anything(undefined)), "missing", "weights.x"],
    [
      "weights that do not fit each other",
      () => door.xyzFromReflectance(grey, { ...weights, z: new Float64Array(3) }),
      "wrong-length",
      "reflectance",
    ],
    [
      "weights of NaN",
      () => door.xyzFromReflectance(grey, { ...weights, y: new Float64Array(31).fill(Number.NaN) }),
      "not-finite",
      "weights",
    ],
    [
      "metamerism of half a pair",
      () => door.metamerismInLab(anything({ reference: LAB }), { reference: LAB, test: LAB }),
      "missing",
      "standard.test",
    ],
    [
      "metamerism of a word unknown",
      () =>
        door.metamerismInLab(
          { reference: LAB, test: LAB },
          { reference: LAB, test: LAB },
          anything("divided"),
        ),
      "unknown-word",
      "correction",
    ],
    [
      "metamerism without a white",
      () =>
        door.metamerismInXyz(
          { reference: WHITE, test: WHITE },
          { reference: WHITE, test: WHITE },
          anything(undefined),
        ),
      "missing",
      "white",
    ],
    ["a colour for the screen", () => srgbHex([50, Number.NaN, 0]), "not-finite", "lab[1]"],
    [
      "daylight on a grid without end",
      () => door.daylight(6500, { ...GRID, count: 1e9 }),
      "out-of-range",
      "grid",
    ],
    ["a billion wavelengths", () => spectra.wavelengths({ ...GRID, count: 1e9 }), "out-of-range", "grid"],
    ["half a grid", () => spectra.gridEnd(anything({ start: 400 })), "missing", "grid.step"],
    ["no grid", () => spectra.covers(GRID, anything(undefined)), "missing", "inner"],
    ["a grid and a number", () => spectra.sameGrid(anything(3), GRID), "wrong-type", "a"],
    [
      "values that do not fit their grid",
      () => spectra.resampleSprague({ grid: GRID, values: [1, 2, 3] }, GRID),
      "wrong-length",
      "source.values",
    ],
    [
      "NaN to interpolate",
      () => spectra.resampleLagrange({ grid: GRID, values: grey.with(2, Number.NaN) }, GRID),
      "not-finite",
      "source.values[2]",
    ],
    [
      "a point that is none",
      () => spectra.uniformSpectrum(anything([null, null, null]), "rows"),
      "wrong-type",
      "rows[0]",
    ],
  ])("%s", (_, act, code, path) => {
    expect(refusal(act)).toEqual({ code, path });
  });
});

describe("doors for colour let through what is one", () => {
  it("gives the same numbers as inside the library, to the last bit, for lists and typed arrays", () => {
    const number = fc.double({ min: -200, max: 200, noNaN: true });
    fc.assert(
      fc.property(fc.tuple(number, number, number), fc.tuple(number, number, number), (one, two) => {
        expect(door.ciede2000(one, two)).toBe(ciede2000(one, two));
        expect(door.labFromXyz(one, WHITE)).toEqual(inside.labFromXyz(one, WHITE));
        const typed = anything(Float64Array.from(one));
        expect(door.ciede2000(typed, two)).toBe(ciede2000(one, two));
      }),
      { seed: 1 },
    );
    expect(door.xyzFromReflectance(Float32Array.from(grey), weights)).toEqual(
      xyzFromReflectance(grey, weights),
    );
  });

  it("believes a reflectance above 2 where the caller says how bright the flake is", () => {
    const flake = grey.with(15, 4);
    expect(refusal(() => door.xyzFromReflectance(flake, weights)).code).toBe("percent-not-fraction");
    expect(door.xyzFromReflectance(flake, weights, 20)).toEqual(xyzFromReflectance(flake, weights));
  });

  it("throws nothing but InputError, and gives nothing but finite numbers, whatever it is given", () => {
    const odd = fc.oneof(
      fc.anything(),
      fc.array(fc.oneof(fc.double(), fc.constantFrom(0, -0, 1e6, -1e6, 1e-6, 1e-300, "1", null)), {
        minLength: 2,
        maxLength: 4,
      }),
      fc.constantFrom(LAB, WHITE, weights, grey),
      fc.record({ at15: fc.double(), at45: fc.double(), at110: fc.double() }),
    );
    const functions = [
      door.cie76,
      door.cie94,
      door.ciede2000,
      door.cmc,
      door.din99,
      door.deltaE00Metric,
      door.labFromXyz,
      door.xyzFromLab,
      door.labByXyz,
      door.lchFromLab,
      door.labFromLch,
      door.xyzFromReflectance,
      door.flopIndex,
    ] as readonly ((...args: readonly unknown[]) => unknown)[];
    fc.assert(
      fc.property(
        fc.constantFrom(...functions),
        odd,
        odd,
        fc.option(odd, { nil: undefined }),
        (of, a, b, c) => {
          let answer: unknown;
          try {
            answer = of(a, b, c);
          } catch (error) {
            expect(error).toMatchObject({ name: "InputError", code: expect.stringMatching(/^[a-z-]+$/) });
            return;
          }
          if (of === door.flopIndex && answer === null) return;
          for (const number of [answer].flat(2)) expect(Number.isFinite(number)).toBe(true);
        },
      ),
      { numRuns: 5000, seed: 2 },
    );
  });
});
