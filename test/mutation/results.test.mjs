import { existsSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { PARTS } from "./parts.mjs";
import { readSummaries, summarise } from "./results.mjs";

describe("the summary of a run", () => {
  it("counts what was noticed and keeps what was not, with the line it stands in", () => {
    const mutant = (status, line) => ({ status, replacement: "b", location: { start: { line } } });
    const files = {
      "src/numeric/a.ts": { source: "x\n  a < b;\n", mutants: [mutant("Killed", 1), mutant("Survived", 2)] },
      "src/numeric/b.ts": {
        source: "y\n",
        mutants: [mutant("Timeout", 1), mutant("NoCoverage", 1), mutant("Ignored", 1)],
      },
    };
    expect(summarise("numeric", 0.2, { files })).toEqual({
      part: "numeric",
      share: 0.2,
      killed: 1,
      endless: 1,
      lived: [
        { file: "numeric/a.ts", line: 2, text: "a < b;", became: "b", isRun: true },
        { file: "numeric/b.ts", line: 1, text: "y", became: "b", isRun: false },
      ],
    });
  });

  it("is of a part that there is, and speaks of files that there are", () => {
    for (const { part, lived } of readSummaries()) {
      expect(Object.keys(PARTS)).toContain(part);
      for (const { file } of lived)
        expect(existsSync(new URL(`../../src/${file}`, import.meta.url)), file).toBe(true);
    }
  });
});
