import { describe, expect, it } from "vitest";
import type { Sample } from "../../src/characterisation/sample.js";
import { shareOf, tintLadders } from "../../src/report/plots/tintLadders.js";

const sample = (recipe: Sample["recipe"]): Sample => ({ name: JSON.stringify(recipe), recipe, readings: [] });

describe("tintLadders", () => {
  const samples = [
    sample({ white: 1 }),
    sample({ blue: 1 }),
    sample({ blue: 10, white: 90 }),
    sample({ white: 99, blue: 1 }),
    sample({ red: 5, white: 5 }),
    sample({ red: 1, blue: 1, white: 8 }),
  ];

  it("finds pairs with more than one step, lets the common component be what is let down with, orders by share", () => {
    const ladders = tintLadders(samples);
    expect(ladders).toHaveLength(1);
    expect(ladders[0]).toMatchObject({ toner: "blue", with: "white" });
    expect(ladders[0].steps.map((step) => shareOf(step, "blue"))).toEqual([0.01, 0.1, 1]);
  });

  it("leaves the samples as they were", () => {
    const before = JSON.stringify(samples);
    tintLadders(samples);
    expect(JSON.stringify(samples)).toBe(before);
  });
});
