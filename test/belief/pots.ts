import { beliefOf } from "../../src/belief/belief.js";
import { BELIEF_SIZES, type BeliefSizes } from "../../src/belief/beliefSizes.js";
import { canPrior } from "../../src/belief/canPrior.js";
import { filmResponse } from "../../src/belief/filmResponse.js";
import type { Prior, ReadCard } from "../../src/belief/prior.js";
import { createEvaluation, evaluate } from "../../src/forward/evaluate.js";
import { createForwardModel } from "../../src/forward/forwardModel.js";
import type { Random } from "../../src/numeric/probability/random.js";
import { type Grams, gramsInOrder } from "../../src/toners/pot.js";
import type { TonerSet } from "../../src/toners/tonerSet.js";

export const VIEWING = { observer: "1964-10", illuminants: [{ name: "D65" }] } as const;

/** What is believed of a toner set at all its geometries before any card. */
export function priorOf(set: TonerSet, sizes: Partial<BeliefSizes> = {}): Prior {
  const atFullStrength = { ...set, toners: set.toners.map((toner) => ({ ...toner, strength: 1 })) };
  const geometries = set.surfaces.map(({ geometry }) => geometry);
  const all = { ...BELIEF_SIZES, ...sizes };
  return {
    model: createForwardModel(atFullStrength, VIEWING, geometries),
    ...canPrior(set, all.strengthSd),
    sizes: all,
  };
}

/** Cards of pots in the order of spraying, as read in one world drawn from the prior itself. */
export function drawnCards(prior: Prior, pots: readonly Float64Array[], random: Random): readonly ReadCard[] {
  const { model, sizes } = prior;
  const at = createEvaluation(model);
  const expected = pots.map((grams) => {
    evaluate(model, grams, at);
    return { grams, reflectance: at.reflectance.slice() };
  });
  const { scope } = beliefOf(prior, expected, { effort: { steps: 0, halvings: 0 } });
  const world = { unknowns: scope.unknowns, u: Float64Array.from(scope.unknowns, () => random.normal()) };
  return scope.films.map((film, c) => {
    const { reflectance } = filmResponse(model, scope.strengths, world, film);
    return { grams: pots[c], reflectance: reflectance.map((r) => r + sizes.readingSd * random.normal()) };
  });
}

/** The card of one pot. */
export function drawnCard(prior: Prior, pot: Grams | Float64Array, random: Random): ReadCard {
  const grams = pot instanceof Float64Array ? pot : gramsInOrder(pot, prior.model.set.toners);
  return drawnCards(prior, [grams], random)[0];
}

/** A·x = b by elimination with pivots, several right sides at once (rows of b), for matrices of a few hundred rows. */
export function denseSolve(a: readonly (readonly number[])[], b: readonly (readonly number[])[]): number[][] {
  const rows = a.map((row, i) => [...row, ...b[i]]);
  const size = rows.length;
  for (let c = 0; c < size; c++) {
    let best = c;
    for (let r = c + 1; r < size; r++) if (Math.abs(rows[r][c]) > Math.abs(rows[best][c])) best = r;
    [rows[c], rows[best]] = [rows[best], rows[c]];
    for (let r = 0; r < size; r++) {
      const factor = r === c ? 0 : rows[r][c] / rows[c][c];
      if (factor === 0) continue;
      for (let k = c; k < rows[r].length; k++) rows[r][k] -= factor * rows[c][k];
    }
  }
  return rows.map((row, i) => row.slice(size).map((value) => value / row[i]));
}

/** ln of the determinant of a positive matrix, by elimination. */
export function logDeterminant(a: readonly (readonly number[])[]): number {
  const rows = a.map((row) => [...row]);
  let sum = 0;
  for (let c = 0; c < rows.length; c++) {
    sum += Math.log(rows[c][c]);
    for (let r = c + 1; r < rows.length; r++) {
      const factor = rows[r][c] / rows[c][c];
      for (let k = c; k < rows.length; k++) rows[r][k] -= factor * rows[c][k];
    }
  }
  return sum;
}
