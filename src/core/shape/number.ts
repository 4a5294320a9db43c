import { checkNumber, type Range } from "../check.js";
import type { Shape } from "./shape.js";

/**
 * A finite number in a range; `whole` asks for whole numbers, `orZero` lets 0 pass beside the range.
 * @__NO_SIDE_EFFECTS__
 */
export function number(range: Range = {}): Shape<number> {
  const { min, max, aboveMin = false, belowMax = false, orZero = false, whole = false } = range;
  const limits = {
    ...(min !== undefined && { [aboveMin ? "exclusiveMinimum" : "minimum"]: min }),
    ...(max !== undefined && { [belowMax ? "exclusiveMaximum" : "maximum"]: max }),
  };
  return {
    check: (value, path) => checkNumber(value, path, range),
    schema: {
      type: whole ? "integer" : "number",
      ...(orZero ? { anyOf: [{ const: 0 }, limits] } : limits),
    },
  };
}
