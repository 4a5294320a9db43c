import { describe, expect, it } from "vitest";
import { typedGrams } from "../../src/toners/typedGrams.js";
import { refusal } from "../support/refusal.js";

describe("grams that somebody typed", () => {
  it.each([
    ["12.5", 12.5],
    ["12,5g", 12.5],
    ["1oz", 28.349523125],
    ["0.5 OZ", 14.1747615625],
    ["12drops", 0.6],
    ["1 drop", 0.05],
  ])("%o are %d", (text, grams) => {
    expect(typedGrams(text, "--pour", { gramsPerDrop: 0.05 })).toBeCloseTo(grams, 12);
  });

  it.each([
    ["12kg", "unknown-word"],
    ["0", "out-of-range"],
    ["-1g", "out-of-range"],
    ["1e-300", "out-of-range"],
    ["1e7", "out-of-range"],
    ["", "missing"],
  ])("%o is refused: %s", (text, code) => {
    expect(refusal(() => typedGrams(text, "--pour", { gramsPerDrop: 0.05 }))).toEqual({
      code,
      path: "--pour",
    });
  });

  it("knows no drops where nothing says what one weighs", () => {
    expect(refusal(() => typedGrams("3drops", "--pour"))).toEqual({ code: "missing", path: "--pour" });
  });
});
