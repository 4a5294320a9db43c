import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ciede2000 } from "../../src/colorimetry/ciede2000.js";
import type { Lab } from "../../src/colorimetry/lab.js";
import { metamerismInLab, metamerismInXyz } from "../../src/colorimetry/metamerism.js";
import type { Xyz } from "../../src/colorimetry/xyz.js";
import {
  METAMERIC_PAIR_IN_LAB as LAB,
  METAMERIC_PAIR_INDICES,
  METAMERIC_PAIR_WHITE as WHITE,
  METAMERIC_PAIR_IN_XYZ as XYZ,
} from "../../src/verification/data/metamericPair.js";

describe("metamerism index, published (seen): colour-science after ISO 18314-4", () => {
  it.each(METAMERIC_PAIR_INDICES)("in %s, %s", (space, correction, expected, allowed) => {
    const index =
      space === "Lab"
        ? metamerismInLab(LAB.standard, LAB.sample, correction)
        : metamerismInXyz(XYZ.standard, XYZ.sample, WHITE, correction);
    expect(Math.abs(index - expected)).toBeLessThan(allowed);
  });

  it("adds in Lab and multiplies in XYZ unless told otherwise", () => {
    const { standard, sample } = LAB;
    expect(metamerismInLab(standard, sample)).toBe(metamerismInLab(standard, sample, "additive"));
    expect(metamerismInXyz(XYZ.standard, XYZ.sample, WHITE)).toBe(
      metamerismInXyz(XYZ.standard, XYZ.sample, WHITE, "multiplicative"),
    );
  });

  it("corrected in XYZ with the white of ASTM E308, computed (by a script of ours, not published)", () => {
    const white: Xyz = [111.144, 100, 35.2];
    expect(metamerismInXyz(XYZ.standard, XYZ.sample, white)).toBeCloseTo(3.7906783, 6);
    expect(metamerismInXyz(XYZ.standard, XYZ.sample, white, "additive")).toBeCloseTo(4.6910449, 6);
  });
});

describe("metamerism index", () => {
  const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  const xyz: fc.Arbitrary<Xyz> = fc.tuple(between(0.1, 100), between(0.1, 100), between(0.1, 100));
  const lab: fc.Arbitrary<Lab> = fc.tuple(between(0, 100), between(-80, 80), between(-80, 80));

  it("is the plain difference under the test light for a pair that matches under the reference light", () => {
    fc.assert(
      fc.property(lab, lab, lab, (reference, test, other) => {
        const plain = ciede2000(test, other);
        for (const correction of ["additive", "multiplicative"] as const) {
          const index = metamerismInLab(
            { reference, test },
            { reference, test: other },
            correction,
            ciede2000,
          );
          expect(index).toBeCloseTo(plain, 10);
        }
      }),
    );
  });

  it("is 0 in XYZ for a sample that is the standard through a grey filter, though they differ under both lights", () => {
    fc.assert(
      fc.property(xyz, xyz, between(0.3, 3), (reference, test, factor) => {
        const filtered = ([x, y, z]: Xyz): Xyz => [factor * x, factor * y, factor * z];
        const sample = { reference: filtered(reference), test: filtered(test) };
        expect(metamerismInXyz({ reference, test }, sample, WHITE)).toBeCloseTo(0, 9);
      }),
    );
  });

  it("refuses a factor that would have to make 0 match", () => {
    const sample = { reference: [50, 0, 10], test: [50, 1, 10] } as const;
    const refuse = () => metamerismInLab(LAB.standard, sample, "multiplicative");
    expect(refuse).toThrow(/sample\.reference\[1\].*\[out-of-range\]/);
  });
});
