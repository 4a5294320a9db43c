import { map } from "../core/shape/map.js";
import { number } from "../core/shape/number.js";
import { record } from "../core/shape/record.js";
import { TONER_ROLES, type Toner, type TonerRole } from "./toner.js";

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

/** From hardly anything to nearly everything. */
const LOSS = number({ min: 1e-4, max: 5 });

/** Priors for themselves; the plan looks whether their toners are there. */
export const FADE_PRIORS_SHAPE = map(record<FadePrior>({ meanLoss: LOSS, sdLoss: LOSS }));

/** The prior of one toner: the job's own word, else its role's; a toner without a role counts as chromatic. */
export function fadePriorOf(toner: Toner, given: FadePriors): FadePrior {
  return Object.hasOwn(given, toner.id)
    ? given[toner.id]
    : FADE_PRIORS[TONER_ROLES.find((role) => role === toner.role) ?? "chromatic"];
}
