import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { mix, packCoefficients } from "../../src/toners/coefficients.js";
import type { TonerSet } from "../../src/toners/tonerSet.js";
import { refusal } from "../support/refusal.js";
import { relativeDifference } from "../support/relativeDifference.js";
import { smallSet } from "./smallSet.js";

const GEOMETRIES = ["d:8 specular included", "45:0"] as const;
const grams = fc.array(
  fc.integer({ min: 0, max: 10_000 }).map((hundredths) => hundredths / 100),
  { minLength: 3, maxLength: 3 },
);

function mixed(set: TonerSet, amounts: ArrayLike<number>): { k: Float64Array; s: Float64Array } {
  const coefficients = packCoefficients(set, GEOMETRIES);
  const k = new Float64Array(coefficients.size).fill(Number.NaN);
  const s = new Float64Array(coefficients.size).fill(Number.NaN);
  mix(coefficients, amounts, k, s);
  return { k, s };
}

function expectClose(actual: Float64Array, expected: Float64Array): void {
  expect(actual).toHaveLength(expected.length);
  for (let b = 0; b < actual.length; b++) {
    expect(relativeDifference(actual[b], expected[b])).toBeLessThan(5e-15);
  }
}

describe("packCoefficients", () => {
  it("lays out toner by toner, geometry by geometry, in the order asked for", () => {
    const { toners, size, k } = packCoefficients(smallSet(), ["45:0", "d:8 specular included"]);
    expect([toners, size]).toEqual([3, 8]);
    expect(Array.from(k.subarray(16, 24))).toEqual([3.5, 2.75, 0.7, 0.35, 3, 2.5, 0.6, 0.3]);
    expect(Array.from(packCoefficients(smallSet(), ["45:0"]).k.subarray(0, 4))).toEqual([
      0.03, 0.02, 0.01, 0,
    ]);
  });

  it("multiplies K and S by the strength of the can", () => {
    const { k, s } = packCoefficients(smallSet(), ["45:0"]);
    expect(Array.from(k.subarray(4, 8))).toEqual([5, 5.1, 5.2, 5.3].map((value) => 1.25 * value));
    expect(Array.from(s.subarray(4, 8))).toEqual([0.2, 0.21, 0.22, 0.23].map((value) => 1.25 * value));
  });

  it("refuses a geometry at which a toner has no spectrum", () => {
    const refused = refusal(() => packCoefficients(smallSet(), ["45:0", "45as15"]));
    expect(refused).toEqual({ code: "unknown-geometry", path: "toners[0].k" });
  });
});

describe("mix", () => {
  it("of one gram of one toner is that toner; of an empty pot zero", () => {
    const { k, s } = mixed(smallSet(), [0, 0, 1]);
    expect(Array.from(k)).toEqual([3, 2.5, 0.6, 0.3, 3.5, 2.75, 0.7, 0.35]);
    expect(Array.from(s)).toEqual([0.4, 0.5, 0.7, 0.8, 0.45, 0.55, 0.75, 0.85]);
    expect(mixed(smallSet(), [0, 0, 0]).k).toEqual(new Float64Array(8));
  });

  it("is linear in the grams", () => {
    fc.assert(
      fc.property(grams, grams, fc.integer({ min: 1, max: 50 }), (a, b, times) => {
        const both = mixed(
          smallSet(),
          a.map((amount, j) => amount + times * b[j]),
        );
        const [first, second] = [mixed(smallSet(), a), mixed(smallSet(), b)];
        expectClose(
          both.k,
          first.k.map((value, i) => value + times * second.k[i]),
        );
        expectClose(
          both.s,
          first.s.map((value, i) => value + times * second.s[i]),
        );
      }),
    );
  });

  it("takes amounts away as it adds them", () => {
    const { k } = mixed(smallSet(), [-1, 0, 0]);
    expect(k[0]).toBe(-0.02);
  });

  it("does not depend on the order of the toners", () => {
    fc.assert(
      fc.property(grams, fc.shuffledSubarray([0, 1, 2], { minLength: 3 }), (amounts, order) => {
        const set = smallSet();
        const shuffled = { ...set, toners: order.map((j) => set.toners[j]) };
        const there = mixed(set, amounts);
        const back = mixed(
          shuffled,
          order.map((j) => amounts[j]),
        );
        expectClose(back.k, there.k);
        expectClose(back.s, there.s);
      }),
    );
  });

  it("a can of strength f counts as f times its grams", () => {
    fc.assert(
      fc.property(grams, fc.integer({ min: 2, max: 40 }), (amounts, tenths) => {
        const set = smallSet();
        const [white, black, red] = set.toners;
        const strong = { ...set, toners: [white, black, { ...red, strength: tenths / 10 }] };
        const more = [amounts[0], amounts[1], (amounts[2] * tenths) / 10];
        expectClose(mixed(strong, amounts).k, mixed(set, more).k);
        expectClose(mixed(strong, amounts).s, mixed(set, more).s);
      }),
    );
  });
});
