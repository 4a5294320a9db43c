import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ciede2000 } from "../../src/colorimetry/ciede2000.js";
import type { Lab } from "../../src/colorimetry/lab.js";
import { metamerismInLab, metamerismInXyz } from "../../src/colorimetry/metamerism.js";
import type { Xyz } from "../../src/colorimetry/xyz.js";

/*
 * Published (seen): colour-science, colour/difference/metamerism_index.py, docstrings and tests (2025), which cite
 * ISO 18314-4:2024; whether the standard itself prints these numbers is not known. Reference D65, test A, 10°. The
 * white of the rows in XYZ is xy = (0.45117, 0.40594) of CIE 15, not the 111.144, 100, 35.200 of ASTM E308.
 */
const LAB = {
  standard: { reference: [39.0908, -21.3269, 22.6657], test: [38.17781, -17.4939, 21.0618] },
  sample: { reference: [38.83253, -19.8787, 20.0453], test: [37.9013, -19.56327, 16.9346] },
} as const;
const XYZ = {
  standard: { reference: [7.6576, 10.7116, 5.0731], test: [8.96442, 10.1878, 1.6663] },
  sample: { reference: [7.6933, 10.5616, 5.54474], test: [8.56438, 10.0324, 1.9315] },
} as const;
const WHITE_A_10: Xyz = [(100 * 0.45117) / 0.40594, 100, (100 * (1 - 0.45117 - 0.40594)) / 0.40594];

describe("metamerism index, published (seen): colour-science after ISO 18314-4", () => {
  it("corrected in CIELAB", () => {
    expect(metamerismInLab(LAB.standard, LAB.sample)).toBeCloseTo(3.8267581, 7);
    expect(metamerismInLab(LAB.standard, LAB.sample, "multiplicative")).toBeCloseTo(3.9842216, 6);
  });

  it("corrected in XYZ", () => {
    expect(metamerismInXyz(XYZ.standard, XYZ.sample, WHITE_A_10)).toBeCloseTo(3.7906989, 6);
    expect(metamerismInXyz(XYZ.standard, XYZ.sample, WHITE_A_10, "additive")).toBeCloseTo(4.6910648, 6);
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
        expect(metamerismInXyz({ reference, test }, sample, WHITE_A_10)).toBeCloseTo(0, 9);
      }),
    );
  });

  it("refuses to bring a 0 to a match by a factor", () => {
    const sample = { reference: [50, 0, 10], test: [50, 1, 10] } as const;
    const refuse = () => metamerismInLab(LAB.standard, sample, "multiplicative");
    expect(refuse).toThrow(/sample\.reference\[1\].*\[out-of-range\]/);
  });
});
