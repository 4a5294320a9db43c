import { describe, expect, it } from "vitest";
import { beliefOf } from "../../../src/belief/belief.js";
import { believe } from "../../../src/belief/believe.js";
import { colourSlopes } from "../../../src/belief/colourSlopes.js";
import { observationsOf } from "../../../src/belief/observationsOf.js";
import { createGradeRoot } from "../../../src/belief/operators/createGradeRoot.js";
import type { SeenPanel } from "../../../src/belief/panel.js";
import type { ReadCard } from "../../../src/belief/prior.js";
import { UNKNOWN_EYE } from "../../../src/belief/unknowns/instrument.js";
import { tristimulusWeights } from "../../../src/colorimetry/weights.js";
import { createRandom } from "../../../src/numeric/probability/random.js";
import { gramsInOrder } from "../../../src/toners/pot.js";
import { horseboxJob, horseboxToners } from "../../fixtures/horsebox.js";
import { drawnCard, priorOf } from "../pots.js";

const prior = priorOf(horseboxToners());
const { grid } = prior.model.set;
const grams = gramsInOrder(horseboxJob().pot, prior.model.set.toners);
const weightsOf = (illuminant: "D65" | "A") => tristimulusWeights({ grid, illuminant, observer: "1964-10" });
const read = drawnCard(prior, grams, createRandom(3));
const colour = { geometry: 0, tristimulus: weightsOf("D65"), lab: [50, 5, -4], sd: 0.2 } as const;

const panel: SeenPanel = {
  grams: grams.map((amount) => 0.9 * amount),
  tonerSds: grams.map((amount) => (amount > 0 ? 0.15 : 0)),
  curveSd: 0.2,
  spectra: [{ geometry: 0, reflectance: new Float64Array(grid.count).fill(0.4) }],
  colours: [colour],
  comparisons: [
    {
      card: 0,
      geometry: 0,
      tristimulus: weightsOf("A"),
      observer: "Ann",
      eye: { logGain: 0.1, sd: 0.2 },
      grades: [
        { component: "lighter", low: 0.4, high: 1.25 },
        { component: "redder", low: -0.4, high: 0.4 },
        { component: "yellower", low: -2.55, high: -1.25 },
      ],
    },
    {
      card: 1,
      geometry: 0,
      tristimulus: weightsOf("D65"),
      observer: "Ben",
      eye: UNKNOWN_EYE,
      grades: [{ component: "moreChromatic", low: 1.25, high: 2.55 }],
    },
  ],
};
const more = grams.map((amount, j) => amount + (j === 0 ? 5 : 0));
const cards: readonly ReadCard[] = [
  { ...read, colours: [colour] },
  { grams: more, reflectance: read.reflectance, isExpected: true, colours: [] },
];

describe("every operator", () => {
  const { scope, shared } = beliefOf(prior, cards, {
    panels: [panel],
    effort: { steps: 0, halvings: 0 },
  });
  const observations = observationsOf({ cards, panels: [panel], shared }, prior.model, 0.001);
  const random = createRandom(8);
  const u = Float64Array.from(scope.unknowns, () => 0.5 * random.normal());
  const at = (values: Float64Array) =>
    believe(scope, observations, { start: values, effort: { steps: 0, halvings: 0 } });

  it("has slopes by every unknown of every owner that equal central differences", () => {
    const { slopes, rows } = at(u);
    const owners = new Set(scope.unknowns.map(({ owner }) => owner));
    for (const owner of ["can", "toner", "panel", "instrument", "observer"] as const) {
      expect(owners).toContain(owner);
    }
    let moved = 0;
    scope.unknowns.forEach((_, x) => {
      const h = 1e-4;
      const by = (sign: number) => at(u.map((value, i) => (i === x ? value + sign * h : value))).residual;
      const [above, below] = [by(1), by(-1)];
      const expected = above.map((value, r) => -(value - below[r]) / (2 * h));
      const size = Math.max(...expected.map(Math.abs));
      if (size > 0) moved++;
      expected.forEach((slope, r) => {
        expect(Math.abs(slopes[x * rows + r] - slope)).toBeLessThanOrEqual(2e-5 * size + 1e-7);
      });
    });
    // Cans of toners in neither pot, and k2 of a geometry that nothing was seen at, move nothing.
    expect(moved).toBeGreaterThan(0.8 * scope.unknowns.length);
  });

  it("a bias common to card and panel leaves their difference unchanged", () => {
    const shift = (by: number) => {
      const { lab: own } = colourSlopes(read.reflectance.subarray(0, grid.count), colour.tristimulus);
      const lab = [own[0] + by, own[1], own[2] + by] as const;
      const off = { ...colour, lab };
      const seen = { ...panel, spectra: [], comparisons: [], colours: [off] };
      const bare = { grams, reflectance: read.reflectance, isExpected: true, colours: [off] };
      return beliefOf(prior, [bare], { panels: [seen] });
    };
    const differenceOf = (belief: ReturnType<typeof shift>) => {
      const { residual } = belief.posterior;
      const biasOf = belief.shared.instrument.map(
        (one) => belief.posterior.u[belief.scope.unknowns.indexOf(one)],
      );
      return { apart: residual[3] - residual[0], bias: biasOf };
    };
    const [plain, off] = [differenceOf(shift(0)), differenceOf(shift(1))];
    expect(Math.abs(off.apart - plain.apart)).toBeLessThan(0.2);
    expect(off.bias[0] - plain.bias[0]).toBeGreaterThan(0.1);
  });
});

describe("a grade by eye", () => {
  it("costs nothing at the likeliest difference, and ever more further away", () => {
    for (const range of [
      { low: -0.4, high: 0.4 },
      { low: 0.4, high: 1.25 },
      { low: -10.2, high: -5.1 },
    ]) {
      const root = createGradeRoot(range);
      const values = Array.from({ length: 401 }, (_, i) => -20 + 0.1 * i).map((w) => root(w));
      values.forEach(({ slope }) => {
        expect(slope).toBeGreaterThan(0);
      });
      for (let i = 1; i < values.length; i++) expect(values[i].root).toBeGreaterThan(values[i - 1].root);
      const middle = (range.low + range.high) / 2;
      expect(Math.abs(root(middle).root)).toBeLessThan(0.5);
    }
  });

  it("is −ln likelihood of the ordered probit near what was said: the ratio of two chances is that of the likelihood", () => {
    // P(grade 1 | w) by sampling an eye that sees w with noise √((0.3w)² + 0.5²), and lapses in two of a hundred.
    const range = { low: 0.4, high: 1.25 };
    const root = createGradeRoot(range);
    const random = createRandom(5);
    const chance = (w: number) => {
      const sd = Math.hypot(0.3 * w, 0.5);
      let hits = 0;
      const n = 200_000;
      for (let i = 0; i < n; i++) {
        const seen = w + sd * random.normal();
        if (seen > range.low && seen <= range.high) hits++;
      }
      return 0.98 * (hits / n) + 0.02;
    };
    for (const [a, b] of [
      [0.8, 0],
      [0.8, 1.6],
      [0.5, 2],
    ]) {
      const expected = Math.log(chance(a) / chance(b));
      expect((root(b).root ** 2 - root(a).root ** 2) / 2).toBeCloseTo(expected, 1);
    }
  });
});
