import { checkKeys, checkList, checkNumber, checkRecord, checkText, pathTo } from "../core/check.js";
import { checkDay } from "../core/day.js";
import { InputError } from "../core/InputError.js";

/** What cards have taught of the cans in use, kept with a toner set so that the next job starts from it. */
export interface LearntStrengths {
  /** Day of the last card, as 2026-03-31. */
  readonly date?: string;
  /** Names of the pots that were learnt from, so that none is learnt from twice. */
  readonly pots: readonly string[];
  /** Which can of a toner is in use, by toner id, where it was said. */
  readonly cans: Readonly<Record<string, string>>;
  /** Strength and sd of ln strength of a new can, by toner id: what the set said before anything was learnt. */
  readonly newCan: Readonly<Record<string, { readonly strength: number; readonly strengthSd: number }>>;
  /** Mean of ln strength, by toner id. */
  readonly logStrength: Readonly<Record<string, number>>;
  /** Covariance of ln strength, by pairs of toner ids. */
  readonly covariance: Readonly<Record<string, Readonly<Record<string, number>>>>;
}

const KEYS = ["date", "pots", "cans", "newCan", "logStrength", "covariance"] as const;

/** Checks what was learnt against the toners there are; a closed record. */
export function checkLearntStrengths(value: unknown, path: string, ids: readonly string[]): LearntStrengths {
  const record = checkRecord(value, path);
  checkKeys(record, path, KEYS);
  const byToner = <T>(of: unknown, place: string, check: (entry: unknown, at: string) => T) => {
    const entries = checkRecord(of, place);
    return Object.fromEntries(
      Object.keys(entries).map((id) => {
        const at = pathTo(place, id);
        if (!ids.includes(id)) throw new InputError("unknown-toner", at, `no toner "${id}" in the toner set`);
        return [id, check(entries[id], at)];
      }),
    );
  };
  const number = (entry: unknown, at: string) => checkNumber(entry, at, { min: -100, max: 100 });
  const { date } = record;
  const covariance = byToner(record.covariance, pathTo(path, "covariance"), (row, at) =>
    byToner(row, at, number),
  );
  for (const [id, row] of Object.entries(covariance)) {
    for (const [other, entry] of Object.entries(row)) {
      if (covariance[other]?.[id] === entry && (id !== other || entry >= 0)) continue;
      const at = pathTo(pathTo(pathTo(path, "covariance"), id), other);
      throw new InputError("out-of-range", at, "a covariance is symmetric, with no variance below 0");
    }
  }
  return {
    ...(date !== undefined && { date: checkDay(date, pathTo(path, "date")) }),
    pots: Array.from(checkList(record.pots, pathTo(path, "pots")), (name, i) =>
      checkText(name, `${pathTo(path, "pots")}[${i}]`),
    ),
    cans: byToner(record.cans, pathTo(path, "cans"), checkText),
    newCan: byToner(record.newCan, pathTo(path, "newCan"), (entry, at) => {
      const { strength, strengthSd } = checkRecord(entry, at);
      return {
        strength: checkNumber(strength, pathTo(at, "strength"), { min: 1e-3, max: 1e3 }),
        strengthSd: checkNumber(strengthSd, pathTo(at, "strengthSd"), { min: 0, max: 10 }),
      };
    }),
    logStrength: byToner(record.logStrength, pathTo(path, "logStrength"), number),
    covariance,
  };
}
