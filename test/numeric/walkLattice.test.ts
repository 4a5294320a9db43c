import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type LatticeProblem, walkLattice } from "../../src/numeric/programmes/walkLattice.js";
import { vector } from "./arbitraries.js";
import { minus, norm, times } from "./matrices.js";

const problems: fc.Arbitrary<LatticeProblem> = fc.integer({ min: 1, max: 4 }).chain((order) =>
  fc
    .record({
      entries: vector(order * order),
      right: vector(order),
      steps: fc.array(fc.constantFrom(0.1, 0.25, 0.3, 1), { minLength: order, maxLength: order }),
      low: fc.array(fc.constantFrom(0, 0.2, 0.5), { minLength: order, maxLength: order }),
      widths: fc.array(fc.constantFrom(0, 0.6, 0.9, 1.7), { minLength: order, maxLength: order }),
      sumAtMost: fc.constantFrom(0, 0.5, 1.2, 3, Number.POSITIVE_INFINITY),
    })
    .map(({ entries, right, steps, low, widths, sumAtMost }) => ({
      triangle: entries.map((value, at) => (at % order < Math.floor(at / order) ? 0 : value)),
      right,
      steps,
      low,
      high: low.map((value, i) => value + widths[i]),
      sumAtMost,
      maxNodes: 1e6,
    })),
);

/** Every multiple of the steps within the bounds, in whole steps counted from 0. */
function everyPoint({ right, steps, low, high, sumAtMost }: LatticeProblem): readonly number[][] {
  let points: number[][] = [[]];
  for (let i = 0; i < right.length; i++) {
    const counts: number[] = [];
    for (let count = -20; count <= 40; count++) {
      const value = count * steps[i];
      if (value >= low[i] - 1e-9 && value <= high[i] + 1e-9) counts.push(count);
    }
    points = points.flatMap((point) => counts.map((count) => [...point, count]));
  }
  return points.filter(
    (point) => point.reduce((sum, count, i) => sum + count * steps[i], 0) <= sumAtMost + 1e-9,
  );
}

const squaresAt = ({ triangle, right }: LatticeProblem, x: ArrayLike<number>) =>
  norm(minus(times(triangle, right.length, x), right)) ** 2;

const countsOf = (x: ArrayLike<number>, steps: ArrayLike<number>) =>
  Array.from(x, (value, i) => Math.round(value / steps[i]));

describe("walkLattice against every point of the box", () => {
  it("visits each point within the radius once, and no other", () => {
    fc.assert(
      fc.property(problems, fc.constantFrom(0.5, 4, 30), (problem, radiusSquared) => {
        const visited: string[] = [];
        const { isComplete } = walkLattice(problem, radiusSquared, (x, squares) => {
          expect(Math.abs(squares - squaresAt(problem, x))).toBeLessThan(1e-9 * (1 + squares));
          visited.push(countsOf(x, problem.steps).join());
          return radiusSquared;
        });
        expect(isComplete).toBe(true);
        expect(new Set(visited).size).toBe(visited.length);
        const inside = everyPoint(problem).map((point) => ({
          point: point.join(),
          squares: squaresAt(
            problem,
            point.map((count, i) => count * problem.steps[i]),
          ),
        }));
        for (const { point, squares } of inside) {
          // On the rim rounding decides.
          if (Math.abs(squares - radiusSquared) < 1e-9) continue;
          expect(visited.includes(point), point).toBe(squares < radiusSquared);
        }
      }),
      { numRuns: 300, seed: 32 },
    );
  });

  it("with a radius that shrinks to the best so far ends at the best of all", () => {
    fc.assert(
      fc.property(problems, (problem) => {
        let best = Number.POSITIVE_INFINITY;
        walkLattice(problem, Number.POSITIVE_INFINITY, (_, squares) => {
          best = Math.min(best, squares);
          return best;
        });
        const all = everyPoint(problem).map((point) =>
          squaresAt(
            problem,
            point.map((count, i) => count * problem.steps[i]),
          ),
        );
        if (all.length === 0) expect(best).toBe(Number.POSITIVE_INFINITY);
        else expect(best).toBeCloseTo(Math.min(...all), 8);
      }),
      { numRuns: 300, seed: 33 },
    );
  });

  it("gives a continuous entry its best value beside each lattice point of the others", () => {
    const problem = {
      triangle: Float64Array.of(2, 1, 0, 1),
      right: Float64Array.of(3, 0.6),
      steps: [0, 0.5],
      low: [0, 0],
      high: [1, 2],
      sumAtMost: 10,
      maxNodes: 100,
    };
    const seen: (readonly number[])[] = [];
    walkLattice(problem, 100, (x) => {
      seen.push([...x]);
      return 100;
    });
    // x₀ = (3 − x₁)/2, at most 1; the nearest x₁ to 0.6 first.
    expect(seen).toEqual([
      [1, 0.5],
      [1, 1],
      [1, 0],
      [0.75, 1.5],
      [0.5, 2],
    ]);
  });

  it("says when the limit on nodes cut it off", () => {
    const problem = {
      triangle: Float64Array.of(1),
      right: Float64Array.of(2),
      steps: [1],
      low: [0],
      high: [9],
      sumAtMost: 9,
    };
    const visit = () => 100;
    expect(walkLattice({ ...problem, maxNodes: 3 }, 100, visit)).toEqual({ nodes: 3, isComplete: false });
    expect(walkLattice({ ...problem, maxNodes: 10 }, 100, visit)).toEqual({ nodes: 10, isComplete: true });
  });

  it("ends at once where an entry has no effect and the visitor has seen enough", () => {
    let visits = 0;
    const problem = {
      triangle: Float64Array.of(0),
      right: Float64Array.of(0),
      steps: [1e-4],
      low: [0],
      high: [1e6],
      sumAtMost: 1e6,
      maxNodes: 100,
    };
    const walk = walkLattice(problem, 1, () => {
      visits++;
      return -1;
    });
    expect(walk).toEqual({ nodes: 1, isComplete: true });
    expect(visits).toBe(1);
  });
});
