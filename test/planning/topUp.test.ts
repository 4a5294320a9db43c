import { describe, expect, it } from "vitest";
import { topUp } from "../../src/planning/holdBack/topUp.js";

describe("topUp", () => {
  it("brings a pot to the paint wanted in the proportions it has, in whole steps", () => {
    expect(topUp({ white: 120, black: 30 }, { wantedGrams: 200 })).toEqual({ white: 40, black: 10 });
    expect(topUp({ white: 120, black: 1.1 }, { wantedGrams: 200 })).toEqual({ white: 78.2, black: 0.7 });
    const exact = topUp({ white: 120, black: 1.1 }, { wantedGrams: 200, scaleStepGrams: 0 });
    expect(exact.white / exact.black).toBeCloseTo(120 / 1.1, 9);
    expect(120 + exact.white + 1.1 + exact.black).toBeCloseTo(200, 9);
  });

  it("pours nothing into a pot that holds enough, and nothing of what the scale cannot weigh", () => {
    expect(topUp({ white: 150, black: 60 }, { wantedGrams: 200 })).toEqual({});
    expect(topUp({ white: 150, black: 0.1 }, { wantedGrams: 200 })).toEqual({ white: 49.9 });
  });

  it("refuses an empty pot and nonsense with their place", () => {
    expect(() => topUp({}, { wantedGrams: 200 })).toThrow(/^pot: .*\[no-pigment\]$/);
    expect(() => topUp({ white: -1 }, { wantedGrams: 200 })).toThrow(/^pot.white: .*\[out-of-range\]$/);
    expect(() => topUp({ white: 1 }, { wantedGrams: 0 })).toThrow(/^wantedGrams: .*\[out-of-range\]$/);
    const tooFine = { wantedGrams: 200, scaleStepGrams: 1e-308 };
    expect(() => topUp({ white: 1 }, tooFine)).toThrow(/^scaleStepGrams: .*\[out-of-range\]$/);
  });
});
