import { describe, expect, it } from "vitest";
import { tonerDirections } from "../../src/prediction/tonerDirections.js";
import { directionsText } from "../../src/report/correction/directionsText.js";
import { horseboxJob } from "../fixtures/horsebox.js";

describe("directionsText", () => {
  const answer = tonerDirections(horseboxJob());
  const text = directionsText(answer, { violet: "Purple tin" });

  it("puts the strongest toner first, under its name, with numbers and words per light", () => {
    const { directions, colours } = answer;
    const strongest = [...directions].sort((a, b) => b.deltaE00PerGram - a.deltaE00PerGram)[0];
    expect(strongest.toner).toBe("violet");
    const rows = text.split("\n").filter((line) => line.startsWith("  Purple tin"));
    expect(rows).toHaveLength(1 + colours.length);
    expect(rows[0]).toContain(strongest.deltaE00PerGram.toFixed(3));
    strongest.perGram.forEach(({ deltaLab, deltaChroma, deltaHue, deltaE00 }, c) => {
      for (const value of [deltaLab[0], deltaChroma, deltaHue, deltaE00]) {
        expect(rows[c + 1]).toContain(value.toFixed(2));
      }
      expect(rows[c + 1]).toMatch(/bluer/);
    });
  });

  it("names what does the same, and says whether a card stands behind the numbers", () => {
    expect(text).toMatch(/^ {2}black +[\d.]+ {2}weak-black \(1\.000\)$/m);
    expect(text).toContain("from the card");
    const { card: _, ...mix } = horseboxJob();
    expect(directionsText(tonerDirections(mix))).toContain("not tied to a card");
  });
});
