import { describe, expect, it } from "vitest";
import { importedPath, readSourceFiles } from "../../architecture/sourceFile.js";

/** What the checker may know of the solver and of what makes certificates: types, and how a job is read. */
const ALLOWED = [
  "correction/certificate/certificate.ts",
  "correction/certificate/proof.ts",
  "correction/correction.ts",
  "correction/goal.ts",
  "correction/job.ts",
  "correction/problem.ts",
];

describe("the checker of certificates", () => {
  it("imports nothing of the solver, nor of what makes certificates", () => {
    const files = readSourceFiles().filter(({ path }) => path.startsWith("correction/checker/"));
    expect(files.length).toBeGreaterThan(4);
    const foreign = files.flatMap(({ path, imports }) =>
      imports
        .map(({ from }) => importedPath(path, from))
        .filter((other) => /^(correction|numeric)\//.test(other))
        .filter((other) => !other.startsWith("correction/checker/") && !ALLOWED.includes(other)),
    );
    expect(foreign).toEqual([]);
  });
});
