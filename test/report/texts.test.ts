import { describe, expect, it } from "vitest";
import { correct } from "../../src/correction/correct.js";
import { correctionText } from "../../src/report/correction/correctionText.js";
import { gramsText } from "../../src/report/words/gramsText.js";
import { textTable } from "../../src/report/words/textTable.js";
import { horseboxJob } from "../fixtures/horsebox.js";

describe("gramsText", () => {
  it.each([
    [3, "3.0"],
    [0.1 + 0.2, "0.3"],
    [12.34, "12.34"],
    [1e-4, "0.0"],
    [250.125, "250.125"],
  ])("shows %d as %s", (grams, text) => {
    expect(gramsText(grams)).toBe(text);
  });
});

describe("textTable", () => {
  it("lines columns up, numbers to the right, and leaves no blanks at the ends", () => {
    const rows = [
      ["toner", "grams"],
      ["schwärze", "1.0"],
      ["b", "100.0"],
    ];
    expect(textTable(rows, { right: [1], indent: "" })).toBe(
      "toner     grams\nschwärze    1.0\nb         100.0",
    );
  });
});

describe("correctionText", () => {
  const job = horseboxJob();

  it("puts obstacles into words where a match is out of reach", () => {
    const text = correctionText(correct({ ...job, limits: { maxPours: 1 } }));
    expect(text).toMatch(/^Out of reach by adding to this pot: /);
    expect(text).toContain("- it would take more pours than are allowed");
  });

  it("uses names where there are any and ids where not", () => {
    const correction = correct(job);
    const [first] = correction.additions;
    expect(correctionText(correction)).toContain(first.toner);
    expect(correctionText(correction, { [first.toner]: "The first tin" })).toContain("The first tin");
  });
});
