import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { typedNumber } from "../../src/core/typedNumber.js";
import { refusal } from "../support/refusal.js";

describe("a number that somebody typed", () => {
  it.each([
    ["12.5", 12.5, ""],
    ["12,5", 12.5, ""],
    ["0,123", 0.123, ""],
    ["1234,567", 1234.567, ""],
    [" .5 ", 0.5, ""],
    ["-3", -3, ""],
    ["+1e-3", 0.001, ""],
    ["0.18oz", 0.18, "oz"],
    ["12 drops", 12, "drops"],
    ["12.5g", 12.5, "g"],
    ["3e2g", 300, "g"],
  ])("%o", (text, value, unit) => {
    expect(typedNumber(text, "--pour")).toEqual({ value, unit });
  });

  it.each([
    ["", "missing"],
    ["  ", "missing"],
    ["0x1F", "wrong-type"],
    ["0b1", "wrong-type"],
    ["1_000", "wrong-type"],
    ["1 000", "wrong-type"],
    ["1.234.567", "wrong-type"],
    ["1.2,3", "wrong-type"],
    ["twelve", "wrong-type"],
    ["g", "wrong-type"],
    ["NaN", "not-finite"],
    ["-inf", "not-finite"],
    ["1e999", "not-finite"],
    ["1,234", "wrong-type"],
    ["12,500g", "wrong-type"],
  ])("%o is refused: %s", (text, code) => {
    expect(refusal(() => typedNumber(text, "--pour"))).toEqual({ code, path: "--pour" });
  });

  it("shows what was typed, and both meanings of a comma", () => {
    expect(() => typedNumber("0x1F", "")).toThrow('"0x1F" is not a finite number');
    expect(() => typedNumber("1,234", "")).toThrow('"1,234" may be 1.234 or 1234');
  });

  it("takes every comma in a table as that before decimals", () => {
    expect(typedNumber("1,234", "", { isTable: true }).value).toBe(1.234);
  });

  it("reads back what the engine writes", () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        expect(typedNumber(`${value}`, "").value).toBe(value + 0);
      }),
    );
  });
});
