import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type Lab,
  labByXyz,
  labFromLch,
  labFromXyz,
  lchFromLab,
  xyzFromLab,
} from "../../src/colorimetry/lab.js";
import type { Xyz } from "../../src/colorimetry/xyz.js";

const WHITE: Xyz = [94.811, 100, 107.304];
const value = fc.oneof(
  fc.integer({ min: -20_000, max: 150_000 }).map((thousandths) => thousandths / 1000),
  fc.double({ min: -20, max: 150, noNaN: true }),
);
const xyzs = fc.tuple(value, value, value);

describe("labFromXyz", () => {
  it("gives the perfect diffuser exactly L* = 100, a* = b* = 0 and darkness 0", () => {
    expect(labFromXyz(WHITE, WHITE)).toEqual([100, 0, 0]);
    expect(labFromXyz([0, 0, 0], WHITE)).toEqual([0, 0, 0]);
  });

  it("joins its two branches at (6/29)³ without a step in value or slope", () => {
    const at = (t: number): Xyz => [t * WHITE[0], t * WHITE[1], t * WHITE[2]];
    const joint = 216 / 24389;
    expect(labFromXyz(at(joint), WHITE)[0]).toBeCloseTo(8, 12);
    expect(labFromXyz(at(joint + 1e-13), WHITE)[0]).toBeCloseTo(8, 9);
    expect(labByXyz(at(joint - 1e-12), WHITE)[0][1]).toBeCloseTo(labByXyz(at(joint + 1e-12), WHITE)[0][1], 8);
  });

  it("computed: Lab of Y = 18.4187 is 50 (inverse of the definition, 116·∛0.184187 − 16)", () => {
    expect(labFromXyz([0, 100 * (66 / 116) ** 3, 0], WHITE)[0]).toBeCloseTo(50, 12);
  });

  it("goes there and back, negative values included", () => {
    fc.assert(
      fc.property(xyzs, (xyz) => {
        const back = xyzFromLab(labFromXyz(xyz, WHITE), WHITE);
        for (let i = 0; i < 3; i++) expect(back[i]).toBeCloseTo(xyz[i], 9);
      }),
    );
  });
});

describe("labByXyz", () => {
  it("is the slope of labFromXyz", () => {
    fc.assert(
      fc.property(xyzs, fc.constantFrom(0, 1, 2), (xyz, axis) => {
        // Not across the joint, where the second derivative jumps.
        fc.pre(xyz.every((v, i) => Math.abs(v / WHITE[i] - 216 / 24389) > 1e-4));
        const h = 1e-5 * Math.max(0.1, Math.abs(xyz[axis]));
        const moved = (by: number): Xyz => [
          xyz[0] + (axis === 0 ? by : 0),
          xyz[1] + (axis === 1 ? by : 0),
          xyz[2] + (axis === 2 ? by : 0),
        ];
        const up = labFromXyz(moved(h), WHITE);
        const down = labFromXyz(moved(-h), WHITE);
        labByXyz(xyz, WHITE).forEach((row, i) => {
          expect(Math.abs((up[i] - down[i]) / (2 * h) - row[axis])).toBeLessThan(1e-5);
        });
      }),
    );
  });
});

describe("lchFromLab", () => {
  it.each<[Lab, number]>([
    [[50, 10, 0], 0],
    [[50, 0, 10], 90],
    [[50, -10, 0], 180],
    [[50, 0, -10], 270],
    [[50, 0, 0], 0],
  ])("hue of %j is %d°", (lab, hue) => {
    expect(lchFromLab(lab)[2]).toBe(hue);
  });

  it("goes there and back", () => {
    const lab = fc.tuple(value, value, value);
    fc.assert(
      fc.property(lab, (colour) => {
        const lch = lchFromLab(colour);
        expect(lch[2]).toBeGreaterThanOrEqual(0);
        expect(lch[2]).toBeLessThanOrEqual(360);
        const back = labFromLch(lch);
        for (let i = 0; i < 3; i++) expect(back[i]).toBeCloseTo(colour[i], 9);
      }),
    );
  });
});
