import { checkList, checkNumber, type Range } from "../check.js";
import { number } from "./number.js";
import type { Shape } from "./shape.js";

/** Three numbers, such as L*, a*, b*. */
export type Triple = readonly [number, number, number];

/**
 * Exactly three numbers in a range.
 * @__NO_SIDE_EFFECTS__
 */
export function triple(range: Range): Shape<Triple> {
  return {
    check: (value, path) => {
      const list = checkList(value, path, { min: 3, max: 3 });
      const at = (i: number) => checkNumber(list[i], `${path}[${i}]`, range);
      return [at(0), at(1), at(2)];
    },
    form: { kind: "list", entry: number(range), min: 3, max: 3 },
  };
}
