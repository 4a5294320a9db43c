import { describe, expect, it } from "vitest";
import { verificationText } from "../../src/report/verification/verificationText.js";
import type { Check, Figure } from "../../src/verification/check.js";
import { verify } from "../../src/verification/verify.js";

const text = (figures: () => readonly Figure[], check: Partial<Check> = {}) =>
  verificationText(
    verify([
      {
        title: "Whites",
        source: "A. Nobody 1900",
        known: "memory",
        remark: "Three decimals there.",
        checks: [{ name: "D65", measure: "absolute", allowed: 1e-3, figures, ...check }],
      },
    ]),
  );

describe("verificationText", () => {
  it("shows source, expected, got, deviation, allowed and whether it holds", () => {
    const shown = text(() => [{ name: "X", expected: 95.047, got: 95.046512345 }]);
    expect(shown).toContain("Whites\n  From memory: A. Nobody 1900.\n  Three decimals there.\n");
    expect(shown).toMatch(/^ {2}D65 +95\.047 +95\.0465 +4\.9e-4 +1e-3 {2}ok$/m);
    expect(shown).toContain("All 1 checks of 1 figures hold.");
    expect(shown).toMatch(/from memory, not looked up +1 +1$/m);
  });

  it("names the figure furthest off, and says what a share is of", () => {
    const figures = () => [
      { name: "X", expected: 2, got: 2 },
      { name: "Z", expected: 2, got: 2.0004 },
    ];
    const shown = text(figures, { measure: "relative" });
    expect(shown).toMatch(/^ {2}D65; worst of 2: Z +2 +2\.0004 +2\.0e-4 +1e-3 {2}ok$/m);
    expect(shown).toContain("shares of what is expected");
  });

  it("tells failures in place and again at the end, with what was thrown", () => {
    const off = text(() => [{ name: "X", expected: 95.047, got: 96 }]);
    expect(off).toMatch(/95\.047 +96 +9\.5e-1 +1e-3 {2}FAILED$/m);
    expect(off).toContain("1 of 1 checks FAILED.");
    expect(off.trimEnd().endsWith("- Whites: D65")).toBe(true);
    const thrown = text(() => {
      throw new Error("no such lamp");
    });
    expect(thrown).toMatch(/^ {2}D65 +– +– +– +1e-3 {2}FAILED: no such lamp$/m);
  });
});
