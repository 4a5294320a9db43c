import { describe, expect, it } from "vitest";
import { faultText } from "../../src/report/learningText.js";

const display = { unit: "drops", gramsPerDrop: { green: 0.02 } } as const;

describe("faultText", () => {
  it("counts what was poured wrongly in drops where they are calibrated", () => {
    const fault = { kind: "mis-pour", toner: "green", grams: 0.4 } as const;
    expect(faultText(fault)).toBe("about 0.4 g too much green was poured");
    expect(faultText(fault, { green: "Bluish green" }, display)).toBe(
      "about 20 drops too much Bluish green was poured",
    );
    expect(faultText({ kind: "not-poured", toner: "white", grams: -12 }, {}, display)).toBe(
      "the 12.0 g of white were not poured",
    );
  });
});
