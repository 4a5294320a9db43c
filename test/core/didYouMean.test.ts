import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { didYouMean } from "../../src/core/didYouMean.js";

const known = ["correct", "predict", "directions", "characterise", "verify"];

describe("didYouMean", () => {
  it.each([
    ["corect", "correct"],
    ["correcct", "correct"],
    ["corretc", "correct"],
    ["Correct", "correct"],
    ["characterize", "characterise"],
    ["verfiy", "verify"],
    ["direction", "directions"],
  ])("%s: %s", (word, meant) => {
    expect(didYouMean(word, known)).toBe(` Did you mean "${meant}"?`);
  });

  it.each(["", "mix", "x", "connect the dots", "predicament"])("has no idea of %j", (word) => {
    expect(didYouMean(word, known)).toBe("");
  });

  it("takes the nearest, of equals the first", () => {
    expect(didYouMean("reds", ["reed", "red", "reads"])).toBe(' Did you mean "red"?');
    expect(didYouMean("D56", ["D50", "D55", "D65"])).toBe(' Did you mean "D50"?');
  });

  it("never suggests a very different word, and is quick on long words", () => {
    expect(didYouMean("a", ["b"])).toBe("");
    fc.assert(
      fc.property(fc.string({ maxLength: 5000 }), (word) => {
        expect(typeof didYouMean(word, known)).toBe("string");
      }),
      { numRuns: 50 },
    );
  });
});
