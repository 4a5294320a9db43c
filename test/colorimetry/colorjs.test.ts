import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { srgbHex } from "../../src/colorimetry/colorjs.js";
import type { Lab } from "../../src/colorimetry/lab.js";

describe("srgbHex", () => {
  // Lab computed from the primaries of IEC 61966-2-1 and the D65 white x = 0.3127, y = 0.3290.
  it.each<[string, Lab]>([
    ["#ffffff", [100, 0, 0]],
    ["#000000", [0, 0, 0]],
    ["#777777", [50.0344, 0, 0]],
    ["#ff0000", [53.2371, 80.0901, 67.2033]],
    ["#00ff00", [87.7355, -86.1816, 83.1866]],
    ["#0000ff", [32.3009, 79.1953, -107.8555]],
  ])("shows %s for its Lab, unmapped", (hex, lab) => {
    expect(srgbHex(lab)).toEqual({ hex, mapped: false });
  });

  it("keeps every neutral neutral, whatever the illuminant was", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 100, noNaN: true }), (lightness) => {
        const { hex, mapped } = srgbHex([lightness, 0, 0]);
        expect(hex.slice(1, 3)).toBe(hex.slice(3, 5));
        expect(hex.slice(3, 5)).toBe(hex.slice(5, 7));
        expect(mapped).toBe(false);
      }),
    );
  });

  it("says when a colour had to be mapped and still gives six digits", () => {
    expect(srgbHex([80, -120, 100]).mapped).toBe(true);
    const anything = fc.double({ min: -200, max: 200, noNaN: true });
    fc.assert(
      fc.property(anything, anything, anything, (lightness, a, b) => {
        expect(srgbHex([lightness, a, b]).hex).toMatch(/^#[0-9a-f]{6}$/);
      }),
    );
  });
});
