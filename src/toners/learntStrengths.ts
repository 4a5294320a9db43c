import { pathTo } from "../core/check.js";
import { DAY } from "../core/day.js";
import { InputError } from "../core/InputError.js";
import { list } from "../core/shape/list.js";
import { map } from "../core/shape/map.js";
import { number } from "../core/shape/number.js";
import { optional } from "../core/shape/optional.js";
import { record } from "../core/shape/record.js";
import { text } from "../core/shape/text.js";
import { checkToners } from "./pot.js";
import { STRENGTH, STRENGTH_SD } from "./toner.js";
import type { HasId } from "./tonerIndex.js";

/** A can as the toner set had it before anything was learnt. */
export interface NewCan {
  /** Factor on K and S. */
  readonly strength: number;
  /** Standard deviation of ln strength. */
  readonly strengthSd: number;
}

/** Sizes of the belief that say how far one film differs from the next of the same paint. */
export type Repeated = "offsetSd" | "gainSd" | "tiltSd" | "filmBuildSd";

/** A standard deviation that films have taught, and how many of them it rests on, the doubt beforehand counted in. */
export interface LearntRepeat {
  readonly sd: number;
  readonly films: number;
}

/** What cards have taught of the cans in use, kept with a toner set so that the next job starts from it. */
export interface LearntStrengths {
  /** Day of the last card, as 2026-03-31. */
  readonly date?: string;
  /** Names of the pots that were learnt from, so that none is learnt from twice. */
  readonly pots: readonly string[];
  /** Which can of a toner is in use, by toner id, where it was said. */
  readonly cans: Readonly<Record<string, string>>;
  /** Strength and sd of ln strength of a new can, by toner id. */
  readonly newCan: Readonly<Record<string, NewCan>>;
  /** Mean of ln strength, by toner id. */
  readonly logStrength: Readonly<Record<string, number>>;
  /** Covariance of ln strength, by pairs of toner ids. */
  readonly covariance: Readonly<Record<string, Readonly<Record<string, number>>>>;
  /** How well gun, hand and instrument repeat, where cards have shown it. */
  readonly repeats?: Readonly<Partial<Record<Repeated, LearntRepeat>>>;
}

const LOG = map(number({ min: -100, max: 100 }));

const REPEAT = record<LearntRepeat>({
  sd: number({ min: 0, max: 10, aboveMin: true }),
  films: number({ min: 0, max: 1e6, aboveMin: true }),
});

/** What was learnt, for itself. */
export const LEARNT_STRENGTHS = record<LearntStrengths>({
  date: optional(DAY),
  pots: list(text()),
  cans: map(text()),
  newCan: map(record<NewCan>({ strength: STRENGTH, strengthSd: STRENGTH_SD })),
  logStrength: LOG,
  covariance: map(LOG),
  repeats: optional(
    record<Readonly<Partial<Record<Repeated, LearntRepeat>>>>({
      offsetSd: optional(REPEAT),
      gainSd: optional(REPEAT),
      tiltSd: optional(REPEAT),
      filmBuildSd: optional(REPEAT),
    }),
  ),
});

/** Refuses what was learnt of toners that are not there, and a covariance that is none. */
export function checkLearntToners(
  { cans, newCan, logStrength, covariance }: LearntStrengths,
  path: string,
  toners: readonly HasId[],
): void {
  const place = pathTo(path, "covariance");
  for (const [key, byId] of Object.entries({ cans, newCan, logStrength, covariance })) {
    checkToners(byId, pathTo(path, key), toners);
  }
  for (const [id, row] of Object.entries(covariance)) {
    checkToners(row, pathTo(place, id), toners);
    for (const [other, entry] of Object.entries(row)) {
      const mirrored = Object.hasOwn(covariance, other) ? covariance[other] : {};
      const isSymmetric = Object.hasOwn(mirrored, id) && mirrored[id] === entry;
      if (isSymmetric && (id !== other || entry >= 0)) continue;
      const reason = "a covariance is symmetric, with no variance below 0";
      throw new InputError("out-of-range", pathTo(pathTo(place, id), other), reason);
    }
  }
}
