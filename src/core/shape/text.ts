import { checkText, SIZE_LIMIT } from "../check.js";
import type { Shape } from "./shape.js";

/**
 * A text that is not blank.
 * @__NO_SIDE_EFFECTS__
 */
export function text(): Shape<string> {
  return {
    check: checkText,
    schema: { type: "string", minLength: 1, maxLength: SIZE_LIMIT, pattern: "\\S" },
  };
}
