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
    const text = "if (t < 0) return -1;";
    const mutant = (line, one = text) => ({
      file: "numeric/root.ts",
      line,
      text: one,
      became: "",
      isRun: true,
    });
    const before = {
      part: "numeric",
      share: 1,
      killed: 10,
      endless: 2,
      lived: [mutant(1), mutant(2, "no such line")],
    };
    expect(linesOf(before)).toEqual([]);
    const [first] = readSummaries()
      .flatMap(({ lived }) => lived)
      .filter(({ file }) => file === "optics/film.ts");
    const moved = { ...before, lived: [{ ...first, line: first.line + 3 }, first] };
    expect(linesOf(moved)).toEqual([{ file: first.file, line: first.line }]);
    expect(mergeLived(before, { lived: [mutant(1)] })).toEqual({ ...before, killed: 12, lived: [mutant(1)] });
  });

  it("is of a part that there is", () => {
    for (const { part } of readSummaries()) expect(Object.keys(PARTS)).toContain(part);
  });
});
