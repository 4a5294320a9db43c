import { deltaE00Metric } from "../../src/colorimetry/deltaE00Metric.js";
import { levenbergMarquardt } from "../../src/numeric/leastSquares/levenbergMarquardt.js";
import type { Grams } from "../../src/toners/pot.js";
import { IDS } from "../simulator/pigments.js";
import { ruleOfThumbPot } from "./arms.js";
import type { Arm } from "./runJob.js";
import { labOf } from "./trueColour.js";

const GOOD_ENOUGH = 0.1;
const CUP = 2;
const SLOPE_GRAMS = 0.05;

/**
 * Knows the physics, the cans and what is truly in the pot, and matches the panel's reading by the true film: what is
 * left after it is the panel's reading error, the scale, the hand, and what no addition could mend.
 */
export const oracle: Arm = {
  name: "oracle",
  about: "solves for the panel as read with the true film, the true cans and the true pot",
  firstPot: ruleOfThumbPot,
  next: ({ panel, truth, wantedGrams }, cards) => {
    const { poured } = cards[cards.length - 1];
    const target = labOf(panel.reflectance);
    const metric = deltaE00Metric(target);
    const grams = (additions: ArrayLike<number>): Grams =>
      Object.fromEntries(IDS.map((id, j) => [id, (poured[id] ?? 0) + additions[j]]));
    const miss = (additions: ArrayLike<number>) => {
      const lab = labOf(truth.reflectance(grams(additions)));
      return metric.map((row) => row.reduce((sum, m, axis) => sum + m * (lab[axis] - target[axis]), 0));
    };
    const nothing = new Float64Array(IDS.length);
    if (Math.hypot(...miss(nothing)) < GOOD_ENOUGH) return {};
    const inPot = Object.values(poured).reduce((sum, amount) => sum + amount, 0);
    const { x } = levenbergMarquardt(
      {
        residualCount: 3,
        start: nothing,
        lower: IDS.map(() => 0),
        upper: IDS.map(() => Number.POSITIVE_INFINITY),
        sumAtMost: Math.max(0, CUP * wantedGrams - inPot),
        residuals: (additions, out) => out.set(miss(additions)),
        jacobian: (additions, out) => {
          const from = miss(additions);
          IDS.forEach((_, j) => {
            const moved = additions.slice();
            moved[j] += SLOPE_GRAMS;
            miss(moved).forEach((value, row) => {
              out[row * IDS.length + j] = (value - from[row]) / SLOPE_GRAMS;
            });
          });
        },
      },
      { maxIterations: 12, costTolerance: 1e-4, stepTolerance: 1e-4, gradientTolerance: 1e-4 },
    );
    const asked = IDS.map((id, j): readonly [string, number] => [id, Math.round(10 * x[j]) / 10]);
    return Object.fromEntries(asked.filter(([, amount]) => amount > 0));
  },
};
