import { checkNumber, checkRecord, pathTo } from "../core/check.js";
import type { Toner } from "./toner.js";
import { tonerIndex } from "./tonerSet.js";

/** What is in the cup now, or what is to be added to it: grams by toner id. */
export type Grams = Readonly<Record<string, number>>;

/** A tonne: more than any cup, so a slip of the unit. */
export const MOST_GRAMS = 1e6;

/** Checks grams by toner id against the toners there are; every amount 0…1e6 g. */
export function checkGrams(value: unknown, path: string, toners: readonly Toner[]): Grams {
  const record = checkRecord(value, path);
  return Object.fromEntries(
    Object.keys(record).map((id) => {
      const place = pathTo(path, id);
      tonerIndex(toners, id, place);
      return [id, checkNumber(record[id], place, { min: 0, max: MOST_GRAMS })];
    }),
  );
}

/** Grams in the order of the toner set, 0 where the record is silent. */
export function gramsInOrder(grams: Grams, toners: readonly Toner[]): Float64Array {
  return Float64Array.from(toners, ({ id }) => (Object.hasOwn(grams, id) ? grams[id] : 0));
}

/** Grams by toner id of an amount in the order of the toner set, without what is zero. */
export function gramsById(amounts: ArrayLike<number>, toners: readonly Toner[]): Grams {
  return Object.fromEntries(
    toners.map(({ id }, j) => [id, amounts[j]] as const).filter(([, grams]) => grams !== 0),
  );
}
