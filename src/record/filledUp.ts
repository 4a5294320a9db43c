import { withoutTail } from "../numeric/scalar/withoutTail.js";
import { nearestStep } from "../planning/holdBack/firstPot.js";
import { topUp } from "../planning/holdBack/topUp.js";
import { type Grams, totalGrams } from "../toners/pot.js";
import type { TonerSet } from "../toners/tonerSet.js";

const plus = (one: Grams, other: Grams): Grams =>
  Object.fromEntries(
    [...new Set([...Object.keys(one), ...Object.keys(other)])].map((id) => [
      id,
      withoutTail((Object.hasOwn(one, id) ? one[id] : 0) + (Object.hasOwn(other, id) ? other[id] : 0)),
    ]),
  );

/**
 * Pours with so much more of everything that the pot then holds `wantedGrams` of the same colour, and its binder (toners
 * of that role) the share that it has now: c/(T − c) of what is poured besides, c g being binder of T g in the pot. To
 * whole steps of the scale (0: unrounded).
 */
export function filledUp(
  pot: Grams,
  pours: Grams,
  {
    toners,
    scaleStepGrams,
    wantedGrams,
  }: { readonly toners: TonerSet; readonly scaleStepGrams: number; readonly wantedGrams: number },
): Grams {
  const isBinder = (id: string) => toners.toners.some((toner) => toner.id === id && toner.role === "binder");
  const clear = Object.fromEntries(
    Object.entries(pot).filter(([id]) => isBinder(id) && !Object.hasOwn(pours, id)),
  );
  const share = totalGrams(clear) / (totalGrams(pot) - totalGrams(clear));
  const besides = totalGrams(pours) * share;
  const kept = Object.entries(clear).map(([id, grams]) => [
    id,
    nearestStep((besides * grams) / totalGrams(clear), scaleStepGrams),
  ]);
  const withClear = plus(pours, Object.fromEntries(kept.filter(([, grams]) => Number(grams) > 0)));
  return plus(withClear, topUp(plus(pot, withClear), { wantedGrams, scaleStepGrams }));
}
