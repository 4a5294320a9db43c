import { checkKeys, checkNumber, checkRecord, pathTo } from "../../core/check.js";
import { TONER_ROLES, type Toner, type TonerRole } from "../../toners/toner.js";
import { tonerIndex } from "../../toners/tonerSet.js";

/** What is known beforehand of ln(remaining fraction) of a toner on a panel of ordinary age; both ≥ 0. */
export interface FadePrior {
  /** Mean of −ln fraction: 0.1 means that a tenth is gone. */
  readonly meanLoss: number;
  /** Standard deviation of the same. */
  readonly sdLoss: number;
}

/**
 * Common practice, no source: organic pigments lose about a tenth and are hard to tell apart beforehand; white, black
 * and the minerals among flake and pearl hardly fade.
 */
export const FADE_PRIORS: Readonly<Record<TonerRole, FadePrior>> = Object.freeze({
  chromatic: { meanLoss: 0.12, sdLoss: 0.12 },
  white: { meanLoss: 0.01, sdLoss: 0.01 },
  black: { meanLoss: 0.02, sdLoss: 0.02 },
  binder: { meanLoss: 0.01, sdLoss: 0.01 },
  flake: { meanLoss: 0.01, sdLoss: 0.01 },
  pearl: { meanLoss: 0.01, sdLoss: 0.01 },
});

/** The priors of toners by id, where the job says better than their role does. */
export type FadePriors = Readonly<Record<string, FadePrior>>;

const HARDLY_ANYTHING = 1e-4;

/** Checks priors by toner id; both numbers from 0.0001 to 5. */
export function checkFadePriors(value: unknown, path: string, toners: readonly Toner[]): FadePriors {
  const record = checkRecord(value, path);
  return Object.fromEntries(
    Object.keys(record).map((id) => {
      const place = pathTo(path, id);
      tonerIndex(toners, id, place);
      const prior = checkRecord(record[id], place);
      checkKeys(prior, place, ["meanLoss", "sdLoss"]);
      const number = (key: "meanLoss" | "sdLoss") =>
        checkNumber(prior[key], pathTo(place, key), { min: HARDLY_ANYTHING, max: 5 });
      return [id, { meanLoss: number("meanLoss"), sdLoss: number("sdLoss") }];
    }),
  );
}

/** The prior of one toner: the job's own word, else its role's; a toner without a role counts as chromatic. */
export function fadePriorOf(toner: Toner, given: FadePriors): FadePrior {
  return Object.hasOwn(given, toner.id)
    ? given[toner.id]
    : FADE_PRIORS[TONER_ROLES.find((role) => role === toner.role) ?? "chromatic"];
}
