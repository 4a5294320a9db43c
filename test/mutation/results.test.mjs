import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { PARTS } from "./parts.mjs";
import { linesOf, mergeLived, readSummaries, summarise } from "./results.mjs";

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

  it("finds the lines of those that lived again, moved or not, and counts who is killed since", () => {
    const file = "optics/film.ts";
    const lines = readFileSync(new URL(`../../src/${file}`, import.meta.url), "utf8").split("\n");
    const at = lines.findIndex((one, i) => one.trim() !== "" && lines.indexOf(one) === i);
    const mutant = (line, text) => ({ file, line, text, became: "", isRun: true });
    const moved = mutant(at + 4, lines[at].trim());
    const gone = [mutant(2, "no such line"), { ...moved, file: "optics/noSuchFile.ts" }];
    const before = { part: "optics", share: 1, killed: 10, endless: 2, lived: [moved, moved, ...gone] };
    expect(linesOf(before)).toEqual([{ file, line: at + 1 }]);
    expect(mergeLived(before, { lived: [moved] })).toEqual({
      ...before,
      killed: 11,
      lived: [moved],
      first: { noticed: 12, lived: 4 },
    });
    expect(mergeLived(mergeLived(before, before), { lived: [] }).first).toEqual({ noticed: 12, lived: 4 });
  });

  it("is of a part that there is", () => {
    for (const { part } of readSummaries()) expect(Object.keys(PARTS)).toContain(part);
  });
});
