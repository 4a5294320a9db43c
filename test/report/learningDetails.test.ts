import { describe, expect, it } from "vitest";
import { faultText } from "../../src/report/planning/learningDetails.js";

const display = { unit: "drops", gramsPerDrop: { green: 0.02 } } as const;

describe("faultText", () => {
  it("counts what was poured wrongly in drops where they are calibrated", () => {
    const fault = { kind: "mis-pour", toner: "green", noted: 0.2, grams: 0.4 } as const;
    expect(faultText(fault)).toBe("as if 0.6 g green had been poured, not 0.2 g");
    expect(faultText(fault, { green: "Bluish green" }, display)).toBe(
      "as if 30 drops Bluish green had been poured, not 10 drops",
    );
    expect(faultText({ kind: "not-poured", toner: "white", grams: -12 }, {}, display)).toBe(
      "as if the 12.0 g of white had not been poured",
    );
  });

  it("names the ratio of a slip in the decimal point", () => {
    const fault = { kind: "tenfold", toner: "green", noted: 3, grams: -2.7 } as const;
    expect(faultText(fault)).toBe("as if 0.3 g green had been poured, not 3.0 g: the decimal point");
  });
});
