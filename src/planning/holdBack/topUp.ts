import { InputError } from "../../core/InputError.js";
import { number } from "../../core/shape/number.js";
import { LIMITS_DEFAULTS, SCALE_STEP } from "../../problem/limits.js";
import { FINEST_GRAMS, GRAMS, type Grams, MOST_GRAMS } from "../../toners/pot.js";
import { nearestStep } from "./firstPot.js";

/** Paint that is wanted in all. */
const WANTED = number({ min: FINEST_GRAMS, max: MOST_GRAMS });

/**
 * Grams of every toner to pour so that a pot holds `wantedGrams` and keeps its colour: (wanted/Σpot − 1)·pot, to the
 * nearest step of the scale (0: unrounded); nothing where it holds as much. A first pot is smaller than the paint
 * wanted, and what corrects it seldom fills it up. Throws InputError: `out-of-range`, and `no-pigment` of an empty pot.
 */
export function topUp(
  pot: Grams,
  {
    wantedGrams,
    scaleStepGrams = LIMITS_DEFAULTS.scaleStepGrams,
  }: { readonly wantedGrams: number; readonly scaleStepGrams?: number },
): Grams {
  const wanted = WANTED.check(wantedGrams, "wantedGrams");
  const step = SCALE_STEP.check(scaleStepGrams, "scaleStepGrams");
  const grams = Object.entries(GRAMS.check(pot, "pot"));
  const total = grams.reduce((sum, [, amount]) => sum + amount, 0);
  if (total === 0) throw new InputError("no-pigment", "pot", "there is nothing in the pot");
  const more = Math.max(0, wanted / total - 1);
  return Object.fromEntries(
    grams
      .map(([id, amount]) => [id, nearestStep(more * amount, step)] as const)
      .filter(([, pour]) => pour > 0),
  );
}
