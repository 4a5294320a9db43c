import { daysBetween } from "../../core/day.js";
import type { LearntStrengths } from "../../toners/learntStrengths.js";
import type { TonerSet } from "../../toners/tonerSet.js";
import type { PotCards } from "./learningJob.js";
import type { LearningOptions } from "./learningOptions.js";
import type { Belief } from "./potModel.js";

/** What is believed of the cans in use, with all that is needed to carry it to the next pot. */
export interface CanBelief extends Belief {
  readonly date?: string;
  /** Names of the pots that it comes from. */
  readonly pots: readonly string[];
  readonly cans: Readonly<Record<string, string>>;
  readonly newCan: LearntStrengths["newCan"];
}

/** The belief a toner set comes with: what was learnt before, else strength and sd of each toner by itself. */
export function beliefOf({ toners, learnt }: TonerSet, { strengthSd }: LearningOptions): CanBelief {
  const size = toners.length;
  const covariance = new Float64Array(size * size);
  const newCan = Object.fromEntries(
    toners.map(({ id, strength = 1, strengthSd: sd = strengthSd }) => [
      id,
      learnt?.newCan[id] ?? { strength, strengthSd: sd },
    ]),
  );
  const mean = Float64Array.from(
    toners,
    ({ id }) => learnt?.logStrength[id] ?? Math.log(newCan[id].strength),
  );
  toners.forEach(({ id }, i) => {
    toners.forEach(({ id: other }, j) => {
      const unlearnt = i === j ? newCan[id].strengthSd ** 2 : 0;
      covariance[i * size + j] = learnt?.covariance[id]?.[other] ?? unlearnt;
    });
  });
  const { date } = learnt ?? {};
  return {
    mean,
    covariance,
    newCan,
    pots: learnt?.pots ?? [],
    cans: learnt?.cans ?? {},
    ...(date !== undefined && { date }),
  };
}

/**
 * The belief as a new pot finds it: every ln strength has walked since, variance growing by ageingSdPerRootDay² a day;
 * a can that was opened since is as any new can, whatever the old one was. A can not named is the one in use.
 */
export function beliefForPot(
  belief: CanBelief,
  { toners }: TonerSet,
  { name, date, cans = {} }: Pick<PotCards, "name" | "date" | "cans">,
  { ageingSdPerRootDay }: LearningOptions,
): CanBelief {
  const size = toners.length;
  const mean = belief.mean.slice();
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
    mean[j] = Math.log(belief.newCan[id].strength);
  });
  const last = date ?? belief.date;
  return {
    mean,
    covariance,
    newCan: belief.newCan,
    pots: [...belief.pots, name],
    cans: { ...belief.cans, ...cans },
    ...(last !== undefined && { date: last }),
  };
}

/** What a toner set keeps of a belief. */
export function learntFrom(
  { mean, covariance, newCan, pots, cans, date }: CanBelief,
  { toners }: TonerSet,
): LearntStrengths {
  const byToner = <T>(of: (j: number) => T) => Object.fromEntries(toners.map(({ id }, j) => [id, of(j)]));
  return {
    ...(date !== undefined && { date }),
    pots,
    cans,
    newCan,
    logStrength: byToner((j) => mean[j]),
    covariance: byToner((i) =>
      byToner((j) => (covariance[i * toners.length + j] + covariance[j * toners.length + i]) / 2),
    ),
  };
}
