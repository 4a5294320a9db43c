import { pathTo } from "../core/check.js";
import { InputError } from "../core/InputError.js";
import { map } from "../core/shape/map.js";
import { number } from "../core/shape/number.js";
import { sum } from "../core/sum.js";
import { type HasId, tonerIndex } from "./tonerIndex.js";

/** What is in the cup now, or what is to be added to it: grams by toner id. */
export type Grams = Readonly<Record<string, number>>;

/** Balances at a bench do not weigh finer, and no drop is lighter: less is a slip of the unit. Common practice, no source. */
export const FINEST_GRAMS = 1e-4;

/** A tonne: more than any cup, so a slip of the unit. */
export const MOST_GRAMS = 1e6;

/** Grams by toner id, each 0…1e6 g. */
export const GRAMS = map(number({ min: 0, max: MOST_GRAMS }));

/** Refuses what is said by toner id of a toner that is not there. Throws `unknown-toner`. */
export function checkToners(byId: object, path: string, toners: readonly HasId[]): void {
  for (const id of Object.keys(byId)) tonerIndex(toners, id, pathTo(path, id));
}

/** Grams by toner id of toners that are there. Throws `unknown-toner`. */
export function checkGrams(value: unknown, path: string, toners: readonly HasId[]): Grams {
  const grams = GRAMS.check(value, path);
  checkToners(grams, path, toners);
  return grams;
}

/** Refuses grams of unknown toners, and a pot, formula or recipe of nothing. Throws `unknown-toner`, `no-pigment`. */
export function checkPot(grams: Grams, path: string, toners: readonly HasId[]): void {
  checkToners(grams, path, toners);
  if (Object.values(grams).some((amount) => amount > 0)) return;
  throw new InputError("no-pigment", path, "there is no paint in it: every amount is 0, or left out");
}

/** All of it together. */
export function totalGrams(grams: Grams): number {
  return sum(Object.values(grams));
}

/** Grams in the order of the toner set, 0 where the record is silent. */
export function gramsInOrder(grams: Grams, toners: readonly HasId[]): Float64Array {
  return Float64Array.from(toners, ({ id }) => (Object.hasOwn(grams, id) ? grams[id] : 0));
}

/** Grams by toner id of an amount in the order of the toner set, without what is zero. */
export function gramsById(amounts: ArrayLike<number>, toners: readonly HasId[]): Grams {
  return Object.fromEntries(
    toners.map(({ id }, j) => [id, amounts[j]] as const).filter(([, grams]) => grams !== 0),
  );
}
