import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cie76 } from "../../src/colorimetry/cie76.js";
import { CIE94_GRAPHIC_ARTS, cie94 } from "../../src/colorimetry/cie94.js";
import { ciede2000 } from "../../src/colorimetry/ciede2000.js";
import { CMC_ACCEPTABILITY, CMC_PERCEPTIBILITY, cmc } from "../../src/colorimetry/cmc.js";
import { colorjsDifferences } from "../../src/colorimetry/colorjs.js";
import { DIFFERENCES } from "../../src/colorimetry/differences.js";
import { din99 } from "../../src/colorimetry/din99.js";
import { type Lab, labFromLch } from "../../src/colorimetry/lab.js";
import {
  COLORJS_DIFFERENCE_PAIRS,
  COLOUR_SCIENCE_DIFFERENCE_PAIRS,
  UNICOLOUR_DIFFERENCE_PAIRS,
} from "../../src/verification/data/differencePairs.js";
import { SHARMA_PAIRS } from "../../src/verification/data/sharma.js";

describe.each([
  ["colour-science, colour/difference/tests", COLOUR_SCIENCE_DIFFERENCE_PAIRS],
  ["Color.js, test/delta.js", COLORJS_DIFFERENCE_PAIRS],
  ["Unicolour, DifferenceTests.cs, sRGB primaries both ways", UNICOLOUR_DIFFERENCE_PAIRS],
])("published (seen): %s", (_, pairs) => {
  it.each(pairs)("%s of %j and %j is %d within %d", (formula, reference, sample, expected, allowed) => {
    expect(Math.abs(DIFFERENCES[formula](reference, sample) - expected)).toBeLessThan(allowed);
  });
});

it("CIE94 is for graphic arts and CMC for acceptability unless told otherwise", () => {
  const pair: [Lab, Lab] = [
    [50, 30, 40],
    [60, 20, 45],
  ];
  expect(cie94(...pair)).toBe(cie94(...pair, CIE94_GRAPHIC_ARTS));
  expect(cmc(...pair)).toBe(cmc(...pair, CMC_ACCEPTABILITY));
});

describe("published (seen): CIEDE2000 of Sharma, Wu & Dalal 2005", () => {
  it.each(SHARMA_PAIRS.map((pair, i) => [i + 1, ...pair] as const))(
    "pair %i, both ways",
    (_, one, two, expected) => {
      expect(Math.abs(ciede2000(one, two) - expected)).toBeLessThan(1e-4);
      expect(ciede2000(two, one)).toBe(ciede2000(one, two));
    },
  );
});

/** Evenly spread over the range, where doubles alone crowd around 0; those too, for what is all but neutral. */
const between = (min: number, max: number) =>
  fc.oneof(
    { weight: 4, arbitrary: fc.integer({ min: 1000 * min, max: 1000 * max }).map((value) => value / 1000) },
    { weight: 1, arbitrary: fc.double({ min, max, noNaN: true }) },
  );
const labs = fc.tuple(between(0, 100), between(-100, 100), between(-100, 100));

describe("computed: colorjs.io as oracle on random pairs", () => {
  /** It takes colours of the least chroma for neutrals. */
  const coloured = labs.filter(([, a, b]) => Math.hypot(a, b) > 0.02);

  it("CIE76", () => {
    fc.assert(
      fc.property(coloured, coloured, (one, two) => {
        expect(cie76(one, two)).toBeCloseTo(colorjsDifferences.cie76(one, two), 10);
      }),
    );
  });

  it("CMC(1:1) and CMC(2:1)", () => {
    fc.assert(
      fc.property(
        coloured,
        coloured,
        fc.constantFrom(CMC_ACCEPTABILITY, CMC_PERCEPTIBILITY),
        (one, two, options) => {
          // It takes the root of a rounding error where the colours are all but equal.
          fc.pre(cie76(one, two) > 1e-3);
          expect(cmc(one, two, options)).toBeCloseTo(colorjsDifferences.cmc(one, two, options), 8);
        },
      ),
    );
  });

  it("CIEDE2000", () => {
    fc.assert(
      fc.property(coloured, coloured, (one, two) => {
        // Where the hues are opposite but for rounding, either branch is right.
        fc.pre(one[1] * two[1] + one[2] * two[2] > 0 || Math.abs(one[1] * two[2] - one[2] * two[1]) > 1e-6);
        expect(ciede2000(one, two)).toBeCloseTo(colorjsDifferences.ciede2000(one, two), 7);
      }),
      { numRuns: 500 },
    );
  });
});

describe("worked by hand", () => {
  it("CMC takes SL = 0.511 below L* = 16 and 0.040975·16/(1 + 0.01765·16) = 0.6556/1.2824 at 16", () => {
    expect(cmc([16, 0, 0], [17, 0, 0], CMC_PERCEPTIBILITY)).toBeCloseTo(1.2824 / 0.6556, 12);
    expect(cmc([15.99, 0, 0], [16.99, 0, 0], CMC_PERCEPTIBILITY)).toBeCloseTo(1 / 0.511, 12);
  });
});

describe("every difference", () => {
  const all = [
    { name: "CIE76", difference: cie76, symmetric: true },
    { name: "CIE94", difference: cie94, symmetric: false },
    { name: "CMC", difference: cmc, symmetric: false },
    { name: "CIEDE2000", difference: ciede2000, symmetric: true },
    { name: "DIN99", difference: din99, symmetric: true },
  ];
  for (const { name, difference, symmetric } of all) {
    it(`${name} is 0 for equal colours and finite and positive for others`, () => {
      fc.assert(
        fc.property(labs, labs, (one, two) => {
          expect(difference(one, one)).toBe(0);
          fc.pre(cie76(one, two) > 1e-6);
          expect(difference(one, two)).toBeGreaterThan(0);
          expect(difference(one, two)).toBeLessThan(1000);
        }),
      );
    });

    it(`${name} ${symmetric ? "does not mind" : "minds"} which colour is the reference`, () => {
      const swapped = (one: Lab, two: Lab) => Math.abs(difference(one, two) - difference(two, one));
      if (symmetric) fc.assert(fc.property(labs, labs, (one, two) => swapped(one, two) <= 1e-12));
      else expect(swapped([50, 10, 0], [40, 60, 30])).toBeGreaterThan(1);
    });

    it(`${name} tends to 0 along any step, neutrals and opposite hues included`, () => {
      fc.assert(
        fc.property(labs, labs, fc.constantFrom(0, 1), (centre, direction, neutral) => {
          const at = (t: number): Lab => [
            centre[0] + t * direction[0],
            neutral * centre[1] + t * direction[1],
            neutral * centre[2] + t * direction[2],
          ];
          expect(difference(at(0), at(1e-7))).toBeLessThan(1e-3);
          expect(difference(at(-1e-7), at(1e-7))).toBeLessThan(1e-3);
        }),
      );
    });
  }

  it("measures a turn of hue at equal lightness and chroma as ΔH alone", () => {
    const one = labFromLch([50, 40, 100]);
    const two = labFromLch([50, 40, 101]);
    const turn = 2 * 40 * Math.sin(Math.PI / 360);
    expect(cie76(one, two)).toBeCloseTo(turn, 10);
    expect(cie94(one, two)).toBeCloseTo(turn / (1 + 0.015 * 40), 10);
  });
});
