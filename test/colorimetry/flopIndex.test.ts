import { describe, expect, it } from "vitest";
import { flopIndex } from "../../src/colorimetry/flopIndex.js";
import { refusal } from "../support/refusal.js";

describe("the flop index", () => {
  // Worked out from the formula of Alman 1987 (from memory) with another program.
  it.each([
    [110, 55, 30, 11.103764764666836],
    [130, 60, 35, 12.468534363426926],
    [95, 70, 60, 3.6048192605292373],
    [60, 60, 60, 0],
    [140, 45, 20, 20.695727684146764],
  ])("of L* %f, %f, %f at 15°, 45°, 110° is %f", (at15, at45, at110, index) => {
    expect(flopIndex({ at15, at45, at110 })).toBeCloseTo(index, 12);
  });

  it("is not told of a flop lighter than the face, nor of a black middle", () => {
    expect(flopIndex({ at15: 40, at45: 50, at110: 60 })).toBeNull();
    expect(flopIndex({ at15: 40, at45: 0, at110: 0 })).toBeNull();
  });

  it("refuses what is no number, and what is no record", () => {
    expect(refusal(() => flopIndex(undefined as never))).toMatchObject({
      code: "missing",
      path: "lightness",
    });
    expect(refusal(() => flopIndex({ at15: Number.NaN, at45: 50, at110: 20 }))).toMatchObject({
      code: "not-finite",
      path: "lightness.at15",
    });
  });
});
