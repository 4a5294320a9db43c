import { describe, expect, it } from "vitest";
import { allowedDeltaE00, TOLERANCE, TOLERANCE_DEFAULTS } from "../../src/tolerance/tolerance.js";

describe("tolerance", () => {
  it("keeps its defaults where nothing is said and refuses what it does not know", () => {
    expect(TOLERANCE.check({}, "tolerance")).toEqual(TOLERANCE_DEFAULTS);
    expect(TOLERANCE.check({ blendDeltaE00: 2 }, "tolerance")).toEqual({
      edgeDeltaE00: 0.5,
      blendDeltaE00: 2,
    });
    expect(() => TOLERANCE.check({ edgeDeltaE00: -1 }, "tolerance")).toThrow(
      /^tolerance\.edgeDeltaE00: .*\[out-of-range\]$/,
    );
    expect(() => TOLERANCE.check({ hue: 1 }, "tolerance")).toThrow(/^tolerance\.hue: .*\[unknown-key\]$/);
  });

  it("allows blends more than edges, weak lights more than strong ones, and anything under a light of no weight", () => {
    expect(allowedDeltaE00(TOLERANCE_DEFAULTS, "edge", 1)).toBe(0.5);
    expect(allowedDeltaE00(TOLERANCE_DEFAULTS, "blend", 1)).toBe(1);
    expect(allowedDeltaE00(TOLERANCE_DEFAULTS, "edge", 0.25)).toBe(1);
    expect(allowedDeltaE00(TOLERANCE_DEFAULTS, "edge", 0)).toBe(Number.POSITIVE_INFINITY);
  });
});
