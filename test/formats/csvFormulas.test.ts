import { describe, expect, it } from "vitest";
import { readReadingsCsv, writeReadingsCsv } from "../../src/formats/readingsCsv.js";

const reading = {
  geometry: "45:0",
  grid: { start: 400, step: 100, count: 4 },
  reflectance: [0.1, 0.2, 0.3, 0.4],
} as const;

describe("CSV for spreadsheets", () => {
  it.each(["=1+1", "+1", "-1", "@sum", "'=1", "''+x", '=HYPERLINK("http://x","y")'])(
    "has no cell that would be run: %s, which comes back as it was",
    (text) => {
      const csv = writeReadingsCsv([{ name: text, reading, backing: text, note: text }]);
      const [, row] = csv.split("\n");
      expect(row).toMatch(/^"?'/);
      expect(row).not.toMatch(/(^|,)"?[=+\-@]/);
      expect(readReadingsCsv(csv).readings[0]).toMatchObject({ name: text, backing: text, note: text });
    },
  );

  it.each(["'tis", "a=b", "' =", "3-1"])("leaves %s alone", (text) => {
    expect(writeReadingsCsv([{ name: text, reading }]).split("\n")[1]).toMatch(new RegExp(`^${text},`));
  });
});
