import { checkNumber, type Range } from "../check.js";
import type { Shape } from "./shape.js";

/**
 * A finite number in a range; `whole` asks for whole numbers, `orZero` lets 0 pass beside the range.
 * @__NO_SIDE_EFFECTS__
 */
export function number(range: Range = {}): Shape<number> {
  return { check: (value, path) => checkNumber(value, path, range), form: { kind: "number", range } };
}
