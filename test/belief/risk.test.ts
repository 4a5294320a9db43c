import { describe, expect, it } from "vitest";
import { beliefOf } from "../../src/belief/belief.js";
import { coloursOf } from "../../src/belief/colourSlopes.js";
import { filmResponse } from "../../src/belief/filmResponse.js";
import { risk } from "../../src/belief/risk.js";
import { spread } from "../../src/belief/spread.js";
import type { Unknown } from "../../src/belief/unknown.js";
import { tonerUnknowns } from "../../src/belief/unknowns/toners.js";
import type { Matrix3 } from "../../src/colorimetry/lab.js";
import { createRandom } from "../../src/numeric/probability/random.js";
import { gramsInOrder } from "../../src/toners/pot.js";
import { horseboxJob, horseboxToners } from "../fixtures/horsebox.js";
import { denseSolve, drawnCard, drawnCards, priorOf } from "./pots.js";

const toners = horseboxToners();
const prior = priorOf(toners);
const ids = toners.toners.map(({ id }) => id);
const count = ids.length;
const { pot } = horseboxJob();
const belief = beliefOf(prior, [drawnCard(prior, pot, createRandom(4))]);
const { scope, posterior } = belief;
const metric: Matrix3 = [
  [0.8, 0, 0],
  [0, 0.5, 0.1],
  [0, 0, 0.4],
];
const form = risk(belief, [{ place: 0, weight: 1, metric }]);
const grams = scope.films[0].grams;
const step = 0.01 * grams.reduce((sum, value) => sum + value, 0);
const others = [...ids.keys()].filter((j) => grams[j] === 0);
/** All that a pour depends on: what the cards were asked about, and what no card has shown. */
const unknowns: readonly Unknown[] = [...scope.unknowns, ...tonerUnknowns(prior.model, others, prior.sizes)];
const labAt = (u: Float64Array, poured: Float64Array) => {
  const film = { ...scope.films[0], grams: grams.map((value, j) => value + poured[j]) };
  return coloursOf(prior.model, filmResponse(prior.model, scope.strengths, { unknowns, u }, film).reflectance)
    .lab;
};
const likeliest = Float64Array.from(unknowns, (_, x) => posterior.u[x] ?? 0);
const seen = (difference: readonly number[]) =>
  metric.map((row) => row.reduce((sum, m, i) => sum + m * difference[i], 0));
const quadratic = (poured: Float64Array) =>
  poured.reduce((sum, a, j) => sum + a * poured.reduce((all, b, i) => all + form[j * count + i] * b, 0), 0);

describe("the risk of pours", () => {
  it("is symmetric and positive definite", () => {
    const random = createRandom(1);
    for (let j = 0; j < count; j++) {
      expect(form[j * count + j]).toBeGreaterThan(0);
      for (let i = 0; i < j; i++) expect(form[j * count + i]).toBe(form[i * count + j]);
    }
    for (let trial = 0; trial < 500; trial++) {
      expect(quadratic(Float64Array.from(ids, () => random.normal()))).toBeGreaterThan(0);
    }
  });

  it("is what the posterior covariance makes of slopes by central differences", () => {
    const h = 1e-3;
    const pours = ids.map((_, j) => Float64Array.from(ids, (_, i) => (i === j ? step : 0)));
    const nothing = new Float64Array(count);
    // By pour and unknown: the colour difference between pot + pour and pot, per gram, as it is seen.
    const slopes = pours.map((poured) =>
      unknowns.map((_, x) => {
        const at = (by: number) => likeliest.map((value, i) => (i === x ? value + by * h : value));
        const [up, down] = [at(1), at(-1)];
        const [a, b, c, d] = [
          labAt(up, poured),
          labAt(down, poured),
          labAt(up, nothing),
          labAt(down, nothing),
        ];
        return seen([0, 1, 2].map((i) => (a[i] - b[i] - (c[i] - d[i])) / (2 * h * step)));
      }),
    );
    const { rows } = posterior;
    const by = unknowns.map((_, x) =>
      Array.from({ length: rows }, (_, r) =>
        x < scope.unknowns.length ? posterior.slopes[x * rows + r] : 0,
      ),
    );
    const data = Array.from({ length: rows }, (_, i) =>
      Array.from({ length: rows }, (_, k) => by.reduce((sum, row) => sum + row[i] * row[k], i === k ? 1 : 0)),
    );
    const shown = slopes.map((of) =>
      Array.from({ length: rows }, (_, r) =>
        [0, 1, 2].map((i) => of.reduce((sum, value, x) => sum + value[i] * by[x][r], 0)),
      ),
    );
    const solved = shown.map((of) => denseSolve(data, of));
    const largest = Math.max(...form);
    for (let j = 0; j < count; j++) {
      for (let i = 0; i < count; i++) {
        let expected = 0;
        for (let axis = 0; axis < 3; axis++) {
          unknowns.forEach((_, x) => {
            expected += slopes[j][x][axis] * slopes[i][x][axis];
          });
          for (let r = 0; r < rows; r++) expected -= shown[j][r][axis] * solved[i][r][axis];
        }
        // Metric and colours are those at the likeliest colour of each pour: a thousandth is what curvature leaves.
        expect(Math.abs(form[j * count + i] - expected) / largest).toBeLessThan(1e-3);
      }
    }
  });

  it.each([{ green: 3 }, { yellow: 4, black: 1 }, { violet: 2 }])(
    "is what worlds drawn from the posterior show of a pour of %j, within a fifth",
    (additions) => {
      const poured = gramsInOrder(additions, toners.toners);
      const nothing = new Float64Array(count);
      const random = createRandom(12);
      const { rows, slopes } = posterior;
      const data = Array.from({ length: rows }, (_, i) =>
        Array.from({ length: rows }, (_, k) => {
          let sum = i === k ? 1 : 0;
          for (let x = 0; x < slopes.length; x += rows) sum += slopes[x + i] * slopes[x + k];
          return sum;
        }),
      );
      const known = scope.unknowns.length;
      const worlds = 400;
      const drawn = Array.from({ length: worlds }, () => ({
        z: Float64Array.from(unknowns, () => random.normal()),
        noise: Array.from({ length: rows }, () => random.normal()),
      }));
      // Matheron's rule: a draw from the prior, moved by what it would have misread of the cards.
      const misread = Array.from({ length: rows }, (_, r) =>
        drawn.map(({ z, noise }) => {
          let sum = noise[r];
          for (let x = 0; x < known; x++) sum += slopes[x * rows + r] * z[x];
          return sum;
        }),
      );
      const back = denseSolve(data, misread);
      const difference = (u: Float64Array) => {
        const [after, before] = [labAt(u, poured), labAt(u, nothing)];
        return [0, 1, 2].map((i) => after[i] - before[i]);
      };
      const expected = difference(likeliest);
      const mean =
        drawn.reduce((sum, { z }, w) => {
          const u = z.map((value, x) => {
            if (x >= known) return value;
            let told = 0;
            for (let r = 0; r < rows; r++) told += slopes[x * rows + r] * back[r][w];
            return likeliest[x] + value - told;
          });
          const off = seen(difference(u).map((value, i) => value - expected[i]));
          return sum + off.reduce((squares, value) => squares + value * value, 0);
        }, 0) / worlds;
      expect(quadratic(poured) / mean).toBeGreaterThan(0.8);
      expect(quadratic(poured) / mean).toBeLessThan(1.25);
    },
  );

  it("grows with the doubt of a can that no card has shown, and with the square of the pour", () => {
    const withSd = (strengthSd: number) => {
      const set = {
        ...toners,
        toners: toners.toners.map((toner) => (toner.id === "violet" ? { ...toner, strengthSd } : toner)),
      };
      const own = priorOf(set);
      return risk(beliefOf(own, belief.cards), [{ place: 0, weight: 1, metric }]);
    };
    const j = ids.indexOf("violet") * (count + 1);
    const [less, more] = [withSd(0.1)[j], withSd(0.3)[j]];
    expect(more).toBeGreaterThan(1.5 * less);
    const one = gramsInOrder({ violet: 1 }, toners.toners);
    expect(quadratic(one.map((value) => 3 * value)) / quadratic(one)).toBeCloseTo(9, 9);
  });
});

describe("the spread of the next card", () => {
  const added = gramsInOrder({ yellow: 6, violet: 1, black: 2 }, toners.toners);
  const next = spread(belief, added);

  it.each(["covariance", "ofPaint", "ofReading"] as const)("has a %s that is one", (which) => {
    const matrix = next[which];
    const size = next.lab.length;
    const random = createRandom(2);
    for (let i = 0; i < size; i++) {
      for (let k = 0; k < i; k++)
        expect(Math.abs(matrix[i * size + k] - matrix[k * size + i])).toBeLessThan(1e-12);
    }
    for (let trial = 0; trial < 200; trial++) {
      const along = next.lab.map(() => random.normal());
      const value = along.reduce(
        (sum, a, i) => sum + a * along.reduce((all, b, k) => all + matrix[i * size + k] * b, 0),
        0,
      );
      expect(value).toBeGreaterThan(0);
    }
  });

  it("is wider by what is a card's own than of the paint, whose part is less where less is poured", () => {
    const nothing = spread(belief, new Float64Array(count));
    const little = spread(
      belief,
      added.map((value) => 0.3 * value),
    );
    for (const axis of [0, 4, 8]) {
      expect(next.covariance[axis]).toBeGreaterThan(next.ofPaint[axis] + next.ofReading[axis]);
      expect(little.ofPaint[axis]).toBeLessThan(next.ofPaint[axis]);
      expect(nothing.ofPaint[axis]).toBeLessThan(little.ofPaint[axis]);
    }
  });

  it("names the owners of the doubt in shares that add up to 1, the least known can with the largest", () => {
    expect(Object.values(next.causes()).reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
    for (const share of Object.values(next.causes())) expect(share).toBeGreaterThanOrEqual(0);
    const set = { ...toners, toners: toners.toners.map((toner) => ({ ...toner, strengthSd: 0.6 })) };
    const causes = spread(beliefOf(priorOf(set), belief.cards), added).causes();
    expect(causes.can).toBeGreaterThan(next.causes().can);
    expect(causes.can).toBeGreaterThan(0.5);
  });

  it("is that of worlds drawn from the prior: each with a card that was believed, and the next one", () => {
    const random = createRandom(21);
    const worlds = 150;
    const after = grams.map((value, j) => value + added[j]);
    const off = Array.from({ length: worlds }, () => {
      const [card, following] = drawnCards(prior, [grams, after], random);
      const { lab, covariance } = spread(beliefOf(prior, [card]), added);
      const read = coloursOf(prior.model, following.reflectance).lab;
      return [0, 1, 2].map((i) => (read[i] - lab[i]) ** 2 / covariance[4 * i]);
    });
    for (const axis of [0, 1, 2]) {
      const mean = off.reduce((sum, of) => sum + of[axis], 0) / worlds;
      // χ² of 150 degrees of freedom over 150 is within 1 ± 0.23 in 95 of 100.
      expect(mean).toBeGreaterThan(0.7);
      expect(mean).toBeLessThan(1.3);
    }
  });
});
