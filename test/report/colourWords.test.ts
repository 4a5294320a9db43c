import { describe, expect, it } from "vitest";
import { colourWords } from "../../src/report/words/colourWords.js";

describe("colourWords", () => {
  it.each([
    ["lighter", [50, 0, 0], [52, 0, 0], "lighter"],
    ["much darker", [50, 0, 0], [42, 0, 0], "much darker"],
    ["a little redder", [50, 0, 0], [50, 0.3, 0], "a little redder"],
    ["greener first when that is the larger step", [50, 0, 0], [50.45, -2, 0], "greener, a little lighter"],
    [
      "bluer and less chromatic for a yellow that loses chroma",
      [70, 0, 40],
      [70, 0, 38],
      "bluer, less chromatic",
    ],
    ["yellower and more chromatic", [70, 0, 40], [70, 0, 42], "yellower, more chromatic"],
    ["no chroma of greys", [50, 0.2, 0], [50, 1.2, 0], "redder"],
    ["nothing to see", [50, 1, 1], [50.05, 1, 1.05], "no change to see"],
  ] as const)("says %s", (_, from, to, words) => {
    expect(colourWords(from, to)).toBe(words);
  });
});
