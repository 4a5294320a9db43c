import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { findFeasible, linearProgramme, maximise } from "../../src/numeric/programmes/linearProgramme.js";
import { refusal } from "../support/refusal.js";
import { expectProved } from "./provedProgramme.js";

/** Small whole numbers make ties and degenerate corners common. */
const programmes = fc
  .record({ columns: fc.integer({ min: 1, max: 6 }), rows: fc.integer({ min: 0, max: 9 }) })
  .chain(({ columns, rows }) => {
    const entries = (length: number, min: number) =>
      fc.array(fc.integer({ min, max: 4 }), { minLength: length, maxLength: length });
    return fc.record({
      objective: entries(columns, -4),
      matrix: entries(rows * columns, -4).map((values) => Float64Array.from(values)),
      atMost: entries(rows, -3).map((values) => Float64Array.from(values)),
    });
  });

describe("linearProgramme", () => {
  it("proves whatever it says: optimal, infeasible or unbounded", () => {
    const seen = new Set<string>();
    fc.assert(
      fc.property(programmes, (programme) => {
        const result = linearProgramme(programme);
        seen.add(result.status);
        expectProved(programme, result);
      }),
      { numRuns: 2000, seed: 3 },
    );
    expect([...seen].sort()).toEqual(["infeasible", "optimal", "unbounded"]);
  });

  it("gives the same value from wherever an earlier programme left off", () => {
    fc.assert(
      fc.property(
        programmes,
        fc.array(fc.integer({ min: -4, max: 4 }), { minLength: 6, maxLength: 6 }),
        (programme, other) => {
          const columns = programme.objective.length;
          const { dictionary } = findFeasible(programme.matrix, programme.atMost, columns);
          if (!dictionary) return;
          maximise(dictionary, other.slice(0, columns));
          const later = maximise(dictionary, programme.objective);
          const first = linearProgramme(programme);
          expect(later.status).toBe(first.status);
          if (first.status === "optimal") expect(later.value).toBeCloseTo(first.value, 8);
        },
      ),
      { numRuns: 500, seed: 4 },
    );
  });

  it("counts its steps, and has the value −∞ where nothing is feasible", () => {
    // max x + y with x ≤ 1, y ≤ 2: two corners further.
    const found = linearProgramme({
      objective: [1, 1],
      matrix: Float64Array.of(1, 0, 0, 1),
      atMost: Float64Array.of(1, 2),
    });
    expect(found).toMatchObject({ status: "optimal", value: 3, iterations: 2 });
    const none = linearProgramme({ objective: [1], matrix: Float64Array.of(1), atMost: Float64Array.of(-1) });
    expect(none).toMatchObject({ status: "infeasible", value: Number.NEGATIVE_INFINITY });
    expect(Array.from(none.x)).toEqual([0]);
  });

  it("refuses matrices of the wrong length and numbers that are none", () => {
    const programme = { objective: [1], matrix: Float64Array.of(1), atMost: Float64Array.of(1) };
    expect(refusal(() => linearProgramme({ ...programme, matrix: Float64Array.of(1, 2) })).code).toBe(
      "wrong-length",
    );
    expect(refusal(() => linearProgramme({ ...programme, objective: [Number.NaN] })).code).toBe("not-finite");
  });
});
