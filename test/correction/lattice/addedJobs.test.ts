import { describe, expect, it } from "vitest";
import { horseboxToners } from "../../fixtures/horsebox.js";
import { isAnswered } from "./addedJobs.js";

describe("a panel made by adding to the pot", () => {
  it.each([0, 0.1])(
    "is never called out of reach, added in steps of %s g",
    (step) => {
      const toners = horseboxToners();
      const wrong = Array.from({ length: 60 }, (_, i) => i + 1).filter(
        (seed) => !isAnswered(toners, seed, step),
      );
      expect(wrong).toEqual([]);
    },
    300_000,
  );
});
