import { checkKeys, checkList, checkNumber, checkRecord, pathTo } from "../core/check.js";
import { InputError } from "../core/InputError.js";
import { checkIlluminant } from "./illuminant.js";
import { checkObserver, type ObserverId } from "./observer.js";

/** Who looks, and under which lights; a weight (1 unless given) says how much a light matters. */
export interface Viewing {
  readonly observer: ObserverId;
  readonly illuminants: readonly WeightedIlluminant[];
}

/** An illuminant by name and how much it matters. */
export interface WeightedIlluminant {
  readonly name: string;
  readonly weight?: number;
}

/** A weight is a share; far larger numbers are a slip and would swallow the others. */
const HEAVIEST = 1e6;

/**
 * Viewing conditions from outside: a known observer, at least one known illuminant, none twice, weights ≥ 0 and
 * not all 0. Every illuminant of the result has its weight. Throws `missing`, `wrong-type`, `wrong-length`,
 * `unknown-key`, `unknown-observer`, `unknown-illuminant`, `not-finite`, `out-of-range` and `duplicate`.
 */
export function checkViewing(value: unknown, path: string): Viewing {
  const record = checkRecord(value, path);
  checkKeys(record, path, ["observer", "illuminants"]);
  const observer = checkObserver(record.observer, pathTo(path, "observer"));
  const place = pathTo(path, "illuminants");
  const illuminants = Array.from(checkList(record.illuminants, place, { min: 1 }), (item, i) =>
    checkWeighted(item, `${place}[${i}]`),
  );
  illuminants.forEach(({ name }, i) => {
    if (illuminants.findIndex((other) => other.name === name) < i) {
      throw new InputError("duplicate", `${place}[${i}].name`, `"${name}" is there twice`);
    }
  });
  if (illuminants.every(({ weight }) => weight === 0)) {
    throw new InputError("out-of-range", place, "all weights are 0: at least one must be more");
  }
  return { observer, illuminants };
}

function checkWeighted(value: unknown, path: string): WeightedIlluminant {
  const record = checkRecord(value, path);
  checkKeys(record, path, ["name", "weight"]);
  const name = checkIlluminant(record.name, pathTo(path, "name"));
  const { weight = 1 } = record;
  return { name, weight: checkNumber(weight, pathTo(path, "weight"), { min: 0, max: HEAVIEST }) };
}
