import { lowerFactor } from "../numeric/linear/lowerFactor.js";
import type { Random } from "../numeric/probability/random.js";
import { studentQuantile } from "../numeric/probability/studentProbability.js";

/**
 * The sizes of the doubts are themselves known within a factor only, so errors have longer tails than the normal law:
 * Student's with this many degrees of freedom, chosen in a world of other physics (docs/evidence.md).
 */
const FREEDOM = 5;

/** Brings Student's law to variance 1. */
const TO_UNIT = Math.sqrt((FREEDOM - 2) / FREEDOM);

/** How many standard deviations to either side hold a number with probability `level`. */
export function halfWidth(level: number): number {
  return TO_UNIT * studentQuantile((1 + level) / 2, FREEDOM);
}

/** Colours (laid out like an evaluation's `lab`) of some mean and covariance, drawn in pairs on either side. */
export function drawColours(
  { mean, covariance }: { readonly mean: Float64Array; readonly covariance: Float64Array },
  count: number,
  random: Random,
): readonly Float64Array[] {
  const size = mean.length;
  const factor = lowerFactor(covariance, size);
  const normal = new Float64Array(size);
  const worlds: Float64Array[] = [];
  while (worlds.length < count) {
    for (let i = 0; i < size; i++) normal[i] = random.normal();
    let chiSquare = 0;
    for (let n = 0; n < FREEDOM; n++) chiSquare += random.normal() ** 2;
    const longer = TO_UNIT * Math.sqrt(FREEDOM / chiSquare);
    const above = new Float64Array(size);
    const below = new Float64Array(size);
    for (let i = 0; i < size; i++) {
      let sum = 0;
      for (let k = 0; k <= i; k++) sum += factor[i * size + k] * normal[k];
      above[i] = mean[i] + longer * sum;
      below[i] = mean[i] - longer * sum;
    }
    worlds.push(above, below);
  }
  return worlds;
}
