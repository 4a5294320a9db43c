import type { CanBelief } from "../../belief/canPosterior.js";
import { canPrior } from "../../belief/canPrior.js";
import { daysBetween } from "../../core/day.js";
import type { LearntStrengths } from "../../toners/learntStrengths.js";
import type { TonerSet } from "../../toners/tonerSet.js";
import type { PotCards } from "./learningJob.js";
import type { LearningOptions } from "./learningOptions.js";

/** What is believed of the cans in use, with all that is needed to carry it to the next pot. */
export interface CarriedBelief extends CanBelief {
  readonly date?: string;
  /** Names of the pots that it comes from. */
  readonly pots: readonly string[];
  readonly cans: Readonly<Record<string, string>>;
  readonly newCan: LearntStrengths["newCan"];
  readonly repeats?: NonNullable<LearntStrengths["repeats"]>;
}

/** The belief a toner set comes with: what was learnt before, else strength and sd of each toner by itself. */
export function carriedBelief(set: TonerSet, { strengthSd }: LearningOptions): CarriedBelief {
  const { learnt } = set;
  const { date } = learnt ?? {};
  return {
    ...canPrior(set, strengthSd),
    pots: learnt?.pots ?? [],
    cans: learnt?.cans ?? {},
    ...(learnt?.repeats && { repeats: learnt.repeats }),
    ...(date !== undefined && { date }),
  };
}

/**
 * The belief as a new pot finds it: every ln strength has walked since, variance growing by ageingSdPerRootDay² a day;
 * a can that was opened since is as any new can, whatever the old one was. A can not named is the one in use.
 */
export function beliefForPot(
  belief: CarriedBelief,
  { toners }: TonerSet,
  { name, date, cans = {} }: Pick<PotCards, "name" | "date" | "cans">,
  { ageingSdPerRootDay }: LearningOptions,
): CarriedBelief {
  const size = toners.length;
  const logStrength = belief.logStrength.slice();
  const covariance = belief.covariance.slice();
  const days = date === undefined || belief.date === undefined ? 0 : daysBetween(belief.date, date);
  toners.forEach(({ id }, j) => {
    covariance[j * size + j] += days * ageingSdPerRootDay ** 2;
    const known = Object.hasOwn(belief.cans, id) ? belief.cans[id] : undefined;
    const can = Object.hasOwn(cans, id) ? cans[id] : known;
    if (known === undefined || can === known) return;
    for (let i = 0; i < size; i++) {
      covariance[j * size + i] = 0;
      covariance[i * size + j] = 0;
    }
    covariance[j * size + j] = belief.newCan[id].strengthSd ** 2;
    logStrength[j] = Math.log(belief.newCan[id].strength);
  });
  const last = date ?? belief.date;
  return {
    logStrength,
    covariance,
    newCan: belief.newCan,
    ...(belief.repeats && { repeats: belief.repeats }),
    pots: [...belief.pots, name],
    cans: { ...belief.cans, ...cans },
    ...(last !== undefined && { date: last }),
  };
}

/** What a toner set keeps of a belief. */
export function learntFrom(
  { logStrength, covariance, newCan, pots, cans, date, repeats }: CarriedBelief,
  { toners }: TonerSet,
): LearntStrengths {
  const byToner = <T>(of: (j: number) => T) => Object.fromEntries(toners.map(({ id }, j) => [id, of(j)]));
  return {
    ...(date !== undefined && { date }),
    pots,
    cans,
    newCan,
    ...(repeats && { repeats }),
    logStrength: byToner((j) => logStrength[j]),
    covariance: byToner((i) =>
      byToner((j) => (covariance[i * toners.length + j] + covariance[j * toners.length + i]) / 2),
    ),
  };
}
