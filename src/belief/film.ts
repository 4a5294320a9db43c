import { ciede2000 } from "../colorimetry/ciede2000.js";
import type { Lab } from "../colorimetry/lab.js";
import { createEvaluation, evaluate } from "../forward/evaluate.js";
import type { ForwardModel } from "../forward/forwardModel.js";
import { choleskyInPlace, solveLower } from "../numeric/linear/triangularSolve.js";

/** A film that was sprayed, or may be: as the scale showed it. */
export interface Film {
  /** Its place among the films of a belief, in the order of spraying; the next card comes after the last one read. */
  readonly place: number;
  /** Grams of every toner in the pot that it was sprayed from. */
  readonly grams: Float64Array;
  /** Its part in what is peculiar to the paint of each film before it, then what is peculiar to itself; squares add up to 1. */
  readonly kinship: Float64Array;
  /** Of a panel: what light has done to it. */
  readonly light?: Light;
}

/** What light does to a panel where nothing is known of it but its paint. */
export interface Light {
  /** By toner: median of −ln of what is left; 0 of what is not in the formula. */
  readonly medianLoss: Float64Array;
  /** Band by band over all geometries: what a yellowing of one sd adds to K/S. */
  readonly yellow: Float64Array;
}

/** Distance in ΔE00 over which the correlation of two paints' own curves falls to 1/e; found on measured ladders (docs/evidence.md). */
const KIN_DELTA_E00 = 50;

/** Added to the diagonal, so that two films of one paint give no singular matrix. */
const LEAST_OWN = 1e-6;

/**
 * Places films in a row. What is peculiar to a paint is shared by others as ρ = exp(−ΔE00/50), ΔE00 between the colours
 * that the model predicts, times `alike` between films sprayed one by one, the next film being as the last one. Kinship is
 * a row of the Cholesky factor of ρ. Every call adds `grams` after `before`.
 */
export function createKinship(
  model: ForwardModel,
  before: readonly Float64Array[],
  alike: number,
): (grams: Float64Array, place: number) => Film {
  const at = createEvaluation(model);
  const labOf = (grams: Float64Array): Lab => {
    evaluate(model, grams, at);
    return [at.lab[0], at.lab[1], at.lab[2]];
  };
  const labs = before.map(labOf);
  const count = before.length;
  const likeness = (a: Lab, b: Lab) => Math.exp(-ciede2000(a, b) / KIN_DELTA_E00);
  const factor = new Float64Array(count * count);
  for (let i = 0; i < count; i++) {
    for (let k = 0; k < count; k++)
      factor[i * count + k] = i === k ? 1 + LEAST_OWN : alike * likeness(labs[i], labs[k]);
  }
  choleskyInPlace(factor, 0, count);
  return (grams, place) => {
    const kinship = new Float64Array(count + 1);
    const known = Math.min(place, count);
    if (place < count) {
      for (let k = 0; k <= place; k++) kinship[k] = factor[place * count + k];
      return { place, grams, kinship };
    }
    const lab = labOf(grams);
    const row = Float64Array.from(labs, (other, c) => (c === count - 1 ? 1 : alike) * likeness(lab, other));
    solveLower(factor, known, row, 0, 1);
    kinship.set(row);
    const shared = row.reduce((sum, value) => sum + value * value, 0);
    kinship[count] = Math.sqrt(Math.max(0, 1 - shared));
    return { place, grams, kinship };
  };
}
