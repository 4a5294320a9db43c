import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { normalQuantile } from "../../src/numeric/probability/normalProbability.js";
import { studentProbability, studentQuantile } from "../../src/numeric/probability/studentProbability.js";
import { refusal } from "../support/refusal.js";

describe("Student's law", () => {
  it("meets the printed table (Fisher & Yates, values from memory)", () => {
    expect(studentQuantile(0.95, 5)).toBeCloseTo(2.015, 3);
    expect(studentQuantile(0.975, 5)).toBeCloseTo(2.571, 3);
    expect(studentQuantile(0.975, 1)).toBeCloseTo(12.706, 3);
    expect(studentQuantile(0.995, 3)).toBeCloseTo(5.841, 3);
  });

  it("is Cauchy's at one degree of freedom, and the normal law at very many", () => {
    expect(studentProbability(1, 1)).toBeCloseTo(0.75, 14);
    expect(studentQuantile(0.95, 100_001)).toBeCloseTo(normalQuantile(0.95), 4);
  });

  it("has the quantile as its inverse", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -20, max: 20, noNaN: true }),
        fc.constantFrom(1, 3, 5, 9),
        (t, freedom) => {
          fc.pre(studentProbability(t, freedom) > 1e-6 && studentProbability(t, freedom) < 1 - 1e-6);
          expect(studentQuantile(studentProbability(t, freedom), freedom)).toBeCloseTo(t, 5);
        },
      ),
    );
  });

  it("refuses an even count, for which the formula is another", () => {
    expect(refusal(() => studentProbability(1, 4))).toEqual({ code: "out-of-range", path: "freedom" });
  });
});
