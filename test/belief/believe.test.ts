import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { beliefOf } from "../../src/belief/belief.js";
import { believe, type Scope } from "../../src/belief/believe.js";
import { canPosterior } from "../../src/belief/canPosterior.js";
import { reflectanceObservation } from "../../src/belief/operators/reflectanceObservation.js";
import type { Unknown } from "../../src/belief/unknown.js";
import { createRandom } from "../../src/numeric/probability/random.js";
import { horseboxJob, horseboxToners } from "../fixtures/horsebox.js";
import { denseSolve, drawnCard, logDeterminant, priorOf } from "./pots.js";

const toners = horseboxToners();
const prior = priorOf(toners);
const ids = toners.toners.map(({ id }) => id);
const { pot } = horseboxJob();
const card = drawnCard(prior, pot, createRandom(4));
const dot = (a: readonly number[], b: readonly number[]) =>
  a.reduce((sum, value, i) => sum + value * b[i], 0);
const columns = (values: Float64Array, rows: number, count: number) =>
  Array.from({ length: count }, (_, x) => Array.from(values.subarray(x * rows, (x + 1) * rows)));

/** J·Jᵀ + I from the slopes, unknown by unknown. */
const covarianceOfData = (by: readonly (readonly number[])[], rows: number) =>
  Array.from({ length: rows }, (_, i) =>
    Array.from({ length: rows }, (_, k) => by.reduce((sum, j) => sum + j[i] * j[k], i === k ? 1 : 0)),
  );

describe("believe", () => {
  it("equals the normal equations and their evidence where all is linear", () => {
    const random = createRandom(7);
    const { size } = prior.model.coefficients;
    const { scope } = beliefOf(prior, [card], { effort: { steps: 0, halvings: 0 } });
    const unknowns = Array.from({ length: 9 }, (): Unknown => {
      const shape = Float64Array.from({ length: size }, () => 0.01 * random.normal());
      return { owner: "film", effects: [{ field: "offset", toner: -1, from: 0, shape, share: () => 1 }] };
    });
    const linear: Scope = { ...scope, unknowns };
    const sd = 0.004;
    const start = believe(linear, [reflectanceObservation(0, card.reflectance, sd)], {
      effort: { steps: 0, halvings: 0 },
    });
    const found = believe(linear, [reflectanceObservation(0, card.reflectance, sd)]);
    const by = unknowns.map(({ effects: [{ shape }] }) => Array.from(shape, (height) => height / sd));
    const normal = by.map((a, x) => by.map((b, y) => dot(a, b) + (x === y ? 1 : 0)));
    const right = by.map((a) => [dot(a, Array.from(start.residual))]);
    const expected = denseSolve(normal, right).map(([value]) => value);
    expected.forEach((value, x) => {
      expect(found.u[x]).toBeCloseTo(value, 9);
    });
    const data = covarianceOfData(by, size);
    const residual = Array.from(start.residual);
    const whitened = denseSolve(
      data,
      residual.map((value) => [value]),
    );
    const chiSquare = residual.reduce((sum, value, i) => sum + value * whitened[i][0], 0);
    expect(found.converged).toBe(true);
    expect(found.chiSquare / chiSquare).toBeCloseTo(1, 9);
    expect(found.logEvidence).toBeCloseTo(-(chiSquare + logDeterminant(data)) / 2, 6);
  });

  it("ends where the slope of the cost is zero, once it has converged", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1000 }), (seed) => {
        const { scope, posterior } = beliefOf(prior, [drawnCard(prior, pot, createRandom(seed))]);
        expect(posterior.converged).toBe(true);
        const { u, residual, slopes, rows } = posterior;
        const pull = scope.unknowns.map((_, x) =>
          dot(Array.from(residual), columns(slopes, rows, u.length)[x]),
        );
        // What one more step would gain is ½ of slope · step: both are small.
        const left = pull.reduce((sum, value, x) => sum + (value - u[x]) ** 2, 0);
        expect(left).toBeLessThan(0.05);
      }),
      { numRuns: 5, seed: 1 },
    );
  });

  it("keeps to its budget of steps, and says when it has not converged", () => {
    const far = { ...card, reflectance: card.reflectance.map((r) => 0.3 * r) };
    expect(beliefOf(prior, [far], { effort: { steps: 1, halvings: 0 } }).posterior.converged).toBe(false);
    expect(
      beliefOf(prior, [card], { effort: { steps: 0, halvings: 0 } }).posterior.u.every((u) => u === 0),
    ).toBe(true);
  });
});

describe("what cards leave of the cans", () => {
  const cards = [card, drawnCard(prior, { ...pot, black: 3 }, createRandom(5))];
  const belief = beliefOf(prior, cards);
  const { logStrength, covariance } = canPosterior(belief);
  const at = (a: string, b: string) => covariance[ids.indexOf(a) * ids.length + ids.indexOf(b)];

  it("is (I + JᵀJ)⁻¹ of the unknowns, carried to ln strength", () => {
    const { posterior, scope } = belief;
    const { u, rows, slopes } = posterior;
    const by = columns(slopes, rows, u.length);
    const normal = by.map((a, x) => by.map((b, y) => dot(a, b) + (x === y ? 1 : 0)));
    const cans = scope.unknowns.map(({ owner, effects }) =>
      ids.map((_, j) => (owner === "can" ? (effects.find(({ toner }) => toner === j)?.shape[0] ?? 0) : 0)),
    );
    const solved = denseSolve(normal, cans);
    ids.forEach((_, i) => {
      ids.forEach((_, k) => {
        const expected = cans.reduce((sum, row, x) => sum + row[i] * solved[x][k], 0);
        expect(Math.abs(covariance[i * ids.length + k] - expected)).toBeLessThan(1e-9);
      });
    });
  });

  it("is a covariance: the same both ways, with no direction of variance below 0, and no wider than before", () => {
    const random = createRandom(3);
    for (let i = 0; i < ids.length; i++) {
      for (let k = 0; k < i; k++) {
        expect(Math.abs(covariance[i * ids.length + k] - covariance[k * ids.length + i])).toBeLessThan(1e-14);
      }
    }
    for (let trial = 0; trial < 200; trial++) {
      const along = ids.map(() => random.normal());
      const of = (matrix: Float64Array) =>
        along.reduce(
          (sum, a, i) =>
            sum + a * dot(along, Array.from(matrix.subarray(i * ids.length, (i + 1) * ids.length))),
          0,
        );
      expect(of(covariance)).toBeGreaterThan(0);
      expect(of(covariance)).toBeLessThanOrEqual(of(prior.covariance) * (1 + 1e-12));
    }
  });

  it("leaves a toner that was in no film as it was", () => {
    const outside = ids.filter((_, j) => cards.every(({ grams }) => grams[j] === 0));
    expect(outside.length).toBeGreaterThan(0);
    for (const id of outside) {
      const j = ids.indexOf(id);
      expect(logStrength[j]).toBe(prior.logStrength[j]);
      expect(at(id, id)).toBeCloseTo(prior.covariance[j * ids.length + j], 14);
      for (const other of ids) if (other !== id) expect(Math.abs(at(id, other))).toBeLessThan(1e-15);
    }
  });

  it("finds a strength that a card shows, against the pot", () => {
    const stronger = {
      ...prior,
      logStrength: prior.logStrength.map((_, j) => (ids[j] === "green" ? Math.log(1.25) : 0)),
    };
    const sure = {
      ...stronger,
      covariance: stronger.covariance.map(() => 0),
      sizes: {
        ...prior.sizes,
        tonerCurveSd: 0,
        tonerScatteringSd: 0,
        paintCurveSd: 0,
        k2Sd: 0,
        k2RiseSd: 0,
        pourSd: 0,
        pourShareSd: 0,
      },
    };
    const seen = drawnCard(sure, pot, createRandom(2));
    const { logStrength: found, covariance: left } = canPosterior(beliefOf(prior, [seen]));
    const relative = found[ids.indexOf("green")] - found[ids.indexOf("white")];
    expect(relative).toBeGreaterThan(0.5 * Math.log(1.25));
    expect(relative).toBeLessThan(1.2 * Math.log(1.25));
    const j = ids.indexOf("green");
    expect(Math.sqrt(left[j * ids.length + j])).toBeLessThan(0.87 * 0.2);
  });

  it("depends on no order of the toners", () => {
    const back = priorOf({ ...toners, toners: [...toners.toners].reverse() });
    const turned = cards.map(({ grams, reflectance }) => ({ grams: grams.slice().reverse(), reflectance }));
    const found = canPosterior(beliefOf(back, turned));
    logStrength.forEach((value, j) => {
      expect(found.logStrength[ids.length - 1 - j]).toBeCloseTo(value, 6);
    });
  });
});
