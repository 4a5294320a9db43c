import { describe, expect, it } from "vitest";
import { after as seenWith } from "../../src/problem/after.js";
import { differences } from "../../src/problem/goal.js";
import { createObjective } from "../../src/problem/objective.js";
import { createScore } from "../../src/problem/score.js";
import type { PaintCost } from "../../src/problem/terms.js";
import { createSubsetRefiner } from "../../src/search/createSubsetRefiner.js";
import { linearise, triangleForm } from "../../src/search/linearise.js";
import { gramForm } from "../../src/search/linearMix.js";
import { createSubsetModels } from "../../src/search/subsetModel.js";
import { randomOf, smallProblem } from "../certificate/smallProblems.js";

const PAINTS: readonly PaintCost[] = [
  { deltaE00: 0, of: "sum" },
  { deltaE00: 0.7, of: "sum" },
  { deltaE00: 0.7, of: "each" },
];

const cases = [0, 4, 13].flatMap((seed) => PAINTS.map((paint) => ({ seed, paint })));

/** A problem, some of its toners, and amounts of them. */
function scene(seed: number) {
  const { problem } = smallProblem(seed);
  const random = randomOf(seed);
  const free = Array.from(problem.bench.pot.keys()).filter((j) => j % 2 === 0);
  const amounts = free.map(() => problem.bench.room * 0.1 * random.uniform());
  const additions = new Float64Array(problem.bench.pot.length);
  free.forEach((j, i) => {
    additions[j] = amounts[i];
  });
  return { problem, free, amounts, additions, random };
}

/** Σ w ΔE00² + 1e−4·Σ w⟨(100ΔR)²⟩ + paint² + ΔᵀQΔ, from the exact model and docs/theory.md. */
function squaresOf(
  { problem, additions, free, amounts }: ReturnType<typeof scene>,
  { deltaE00, of }: PaintCost,
): number {
  const { goal, model, bench, risk } = problem;
  const at = seenWith(problem, additions);
  const bands = model.set.grid.count;
  const colour = differences(goal, at.lab).reduce((sum, d, i) => sum + goal.aims[i].weight * d * d, 0);
  const spectral = goal.spectra.reduce((sum, { weight, geometry, reflectance }) => {
    const missed = Array.from(reflectance, (r, b) => (100 * (at.reflectance[geometry * bands + b] - r)) ** 2);
    return sum + (weight * missed.reduce((a, b) => a + b, 0)) / bands;
  }, 0);
  const inPot = bench.pot.reduce((sum, grams) => sum + grams, 0);
  const poured = amounts.reduce((sum, grams) => sum + grams, 0);
  const paid = of === "sum" ? poured ** 2 : free.reduce((sum, j) => sum + additions[j] ** 2, 0);
  const { length } = additions;
  const doubt = risk.reduce(
    (sum, q, i) => sum + q * additions[Math.floor(i / length)] * additions[i % length],
    0,
  );
  return colour + 1e-4 * spectral + (deltaE00 / inPot) ** 2 * paid + doubt;
}

describe.each(cases)(
  "the objective of additions: seed $seed, paint $paint.deltaE00 of $paint.of",
  ({ seed, paint }) => {
    const here = scene(seed);
    const { problem, free, amounts, additions } = here;
    const objective = createObjective(problem, free, paint);
    const width = free.length;
    const residualsAt = (at: readonly number[]) => {
      const out = new Float64Array(objective.residualCount).fill(Number.NaN);
      objective.residuals(at, out);
      return out;
    };
    const residuals = residualsAt(amounts);
    const jacobian = new Float64Array(objective.residualCount * width);
    objective.jacobian(amounts, jacobian);
    const sumOfSquares = residuals.reduce((sum, r) => sum + r * r, 0);

    it("has residuals whose squares are what is defined, and so has the score", () => {
      const expected = squaresOf(here, paint);
      expect(sumOfSquares / expected).toBeCloseTo(1, 10);
      expect(createScore(problem, paint)(additions) ** 2 / expected).toBeCloseTo(1, 10);
    });

    it("has slopes that are what the residuals grow by", () => {
      free.forEach((_, column) => {
        const step = 1e-4;
        const moved = (by: number) => residualsAt(amounts.map((grams, i) => grams + (i === column ? by : 0)));
        const [up, down] = [moved(step), moved(-step)];
        const slopes = Array.from(up, (value, r) => (value - down[r]) / (2 * step));
        const size = Math.max(...slopes.map(Math.abs));
        slopes.forEach((slope, r) => {
          expect(Math.abs(jacobian[r * width + column] - slope) / size).toBeLessThan(2e-4);
        });
      });
    });

    it("made linear is the same at that point, with the same slopes", () => {
      const { rows, columns, matrix, right } = linearise(problem, free, amounts, paint);
      expect([rows, columns]).toEqual([objective.residualCount, width]);
      expect(matrix).toEqual(jacobian);
      residuals.forEach((residual, r) => {
        const value = amounts.reduce((sum, grams, c) => sum + matrix[r * columns + c] * grams, -right[r]);
        expect(value).toBeCloseTo(residual, 9);
      });
    });

    it("has a Gram form and a triangle with the same squares at any amounts", () => {
      const linear = linearise(problem, free, amounts, paint);
      const weights = problem.goal.aims.map(({ weight }) => weight);
      const {
        gram,
        right: side,
        constant,
        order,
      } = gramForm(createSubsetModels(problem, paint).at(free, amounts, weights));
      expect(order).toBe(width);
      const random = randomOf(seed + 7);
      const trials = Array.from({ length: 5 }, () =>
        amounts.map((grams) => grams * (0.5 + random.uniform())),
      );
      const exact = trials.map((x) => {
        let sum = 0;
        for (let r = 0; r < linear.rows; r++) {
          const missed = x.reduce(
            (s, value, c) => s + linear.matrix[r * width + c] * value,
            -linear.right[r],
          );
          sum += missed * missed;
        }
        return sum;
      });
      trials.forEach((x, t) => {
        let sum = constant;
        for (let c = 0; c < width; c++) {
          sum -= 2 * side[c] * x[c];
          for (let d = 0; d < width; d++) sum += x[c] * gram[c * width + d] * x[d];
        }
        expect(sum / exact[t]).toBeCloseTo(1, 7);
      });
      // What is left when the triangle is met is the same for all amounts.
      const { triangle, right } = triangleForm(linear);
      const left = trials.map((x, t) => {
        let sum = exact[t];
        for (let i = 0; i < width; i++) {
          let missed = -right[i];
          for (let c = 0; c < width; c++) missed += triangle[i * width + c] * x[c];
          sum -= missed * missed;
          for (let c = 0; c < i; c++) expect(triangle[i * width + c]).toBe(0);
        }
        return sum;
      });
      for (const rest of left) {
        expect(rest).toBeGreaterThan(-1e-9 * exact[0]);
        expect(Math.abs(rest - left[0]) / exact[0]).toBeLessThan(1e-9);
      }
    });

    it("has normal equations for a few toners", () => {
      const weights = problem.goal.aims.map(({ weight }) => weight);
      const model = createSubsetModels(problem, paint).at(free, Float64Array.from(amounts), weights);
      expect(model.squares / sumOfSquares).toBeCloseTo(1, 9);
      expect(Array.from(model.differences)).toEqual(
        differences(problem.goal, seenWith(problem, additions).lab).map((d) => expect.closeTo(d, 9)),
      );
      for (let c = 0; c < width; c++) {
        const product = (one: number, other: number) =>
          residuals.reduce((sum, _, r) => sum + jacobian[r * width + one] * jacobian[r * width + other], 0);
        for (let d = 0; d < width; d++) {
          const size = Math.sqrt(product(c, c) * product(d, d));
          expect(Math.abs(model.gram[c * width + d] - product(c, d)) / size).toBeLessThan(1e-9);
        }
        const along = residuals.reduce((sum, r, i) => sum - jacobian[i * width + c] * r, 0);
        expect(model.side[c] / along).toBeCloseTo(1, 6);
      }
      // An aim of no weight is left out of the squares, not of the differences.
      const none = createSubsetModels(problem, { deltaE00: 0, of: "sum" }).at(
        free,
        Float64Array.from(amounts),
        weights.map(() => 0),
      );
      expect(none.squares).toBeLessThan(model.squares);
      expect(Array.from(none.differences)).toEqual(Array.from(model.differences));
    });
  },
);

describe("the refinement of a few toners", () => {
  it.each([0, 4, 13, 21])(
    "ends within stock and cup where no step within them leads down (seed %i)",
    (seed) => {
      const { problem, random } = scene(seed);
      const models = createSubsetModels(problem, PAINTS[0]);
      const toners = [0, 2, 3];
      const weights = problem.goal.aims.map(({ weight }) => weight);
      const room = 0.3 * problem.bench.room;
      const low = [0, 0.01 * room, 0];
      const high = [0.5 * room, room, 0.2 * room];
      const start = toners.map(() => room * random.uniform());
      const { amounts, squares } = createSubsetRefiner(models, weights.length, problem.work).best(
        toners,
        { low, high, room },
        start,
        weights,
      );
      const sum = amounts.reduce((a, b) => a + b, 0);
      expect(sum).toBeLessThanOrEqual(room * (1 + 1e-9));
      amounts.forEach((grams, i) => {
        expect(grams).toBeGreaterThanOrEqual(low[i] - 1e-12);
        expect(grams).toBeLessThanOrEqual(high[i] + 1e-9);
      });
      for (let trial = 0; trial < 300; trial++) {
        const size = room * 10 ** (-3 * random.uniform());
        const other = amounts.map((grams, i) =>
          Math.min(high[i], Math.max(low[i], grams + size * random.normal())),
        );
        const poured = other.reduce((a, b) => a + b, 0);
        if (poured > room) continue;
        expect(models.at(toners, other, weights).squares).toBeGreaterThan(squares * (1 - 5e-3) - 1e-9);
      }
    },
  );
});
