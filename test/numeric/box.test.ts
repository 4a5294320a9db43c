import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Box, boxConstraints, createBox, moveIntoBox } from "../../src/numeric/leastSquares/box.js";
import { constrainedLeastSquares } from "../../src/numeric/leastSquares/constrainedLeastSquares.js";
import { refusal } from "../support/refusal.js";
import { entry, vector } from "./arbitraries.js";

const none = Number.POSITIVE_INFINITY;
const sum = (values: ArrayLike<number>) => Array.from(values).reduce((total, value) => total + value, 0);

const size = 5;
const box: fc.Arbitrary<Box> = fc
  .tuple(
    fc.array(fc.oneof(entry, fc.constant(-none)), { minLength: size, maxLength: size }),
    fc.array(fc.oneof(entry.map(Math.abs), fc.constant(none)), { minLength: size, maxLength: size }),
    fc.oneof(entry.map(Math.abs), fc.constant(none)),
  )
  .map(([lower, widths, room]) => {
    const upper = lower.map((bound, j) => (bound === -none ? 1 : bound) + widths[j]);
    const least = sum(lower);
    return createBox({ lower, upper, sumAtMost: (least === -none ? 0 : least) + room }, size);
  });

describe("moveIntoBox", () => {
  it("ends inside exactly, and leaves alone what is inside", () => {
    fc.assert(
      fc.property(box, vector(size), (limits, x) => {
        moveIntoBox(x, limits);
        x.forEach((value, j) => {
          expect(value).toBeGreaterThanOrEqual(limits.lower[j]);
          expect(value).toBeLessThanOrEqual(limits.upper[j]);
        });
        expect(sum(x)).toBeLessThanOrEqual(limits.sumAtMost);
        const again = x.slice();
        moveIntoBox(again, limits);
        expect(again).toEqual(x);
      }),
    );
  });

  it("ends at the nearest point of the box", () => {
    fc.assert(
      fc.property(box, vector(size), (limits, x) => {
        const identity = Float64Array.from({ length: size * size }, (_, k) => (k % (size + 1) === 0 ? 1 : 0));
        const nearest = constrainedLeastSquares(
          { matrix: identity, rightHandSide: x, rows: size, columns: size },
          boxConstraints(limits),
        ).x;
        const moved = x.slice();
        moveIntoBox(moved, limits);
        nearest.forEach((value, j) => {
          expect(moved[j]).toBeCloseTo(value, 9);
        });
      }),
    );
  });
});

describe("boxConstraints", () => {
  it("are the finite limits: lower, upper, sum", () => {
    const limits = createBox({ lower: [0, -none], upper: [none, 3], sumAtMost: 4 }, 2);
    const { matrix, atLeast } = boxConstraints(limits);
    expect(Array.from(matrix)).toEqual([1, 0, 0, -1, -1, -1].map((value) => value + 0));
    expect(Array.from(atLeast)).toEqual([0, -3, -4]);
    expect(boxConstraints(createBox({}, 2)).atLeast).toHaveLength(0);
  });
});

describe("createBox", () => {
  it.each([
    ["crossed bounds", { lower: [0, 2], upper: [1, 1] }, "out-of-range", "lower[1]"],
    ["a bound that is not a number", { upper: [1, Number.NaN] }, "out-of-range", "lower[1]"],
    ["a lower bound of +∞", { lower: [none, 0] }, "out-of-range", "lower[0]"],
    ["an upper bound of −∞", { upper: [-none, 0] }, "out-of-range", "lower[0]"],
    ["a sum below the lower bounds", { lower: [1, 1], sumAtMost: 1 }, "out-of-range", "sumAtMost"],
    ["a sum that is not a number", { sumAtMost: Number.NaN }, "out-of-range", "sumAtMost"],
    ["too many bounds", { upper: [1, 1, 1] }, "wrong-length", "upper"],
  ])("refuses %s", (_, limits, code, path) => {
    expect(refusal(() => createBox(limits, 2))).toMatchObject({ code, path });
  });
});
