import { checkProse, checkText } from "../check.js";
import type { Shape } from "./shape.js";

/**
 * A text of one line that is not blank, such as a name.
 * @__NO_SIDE_EFFECTS__
 */
export function text(): Shape<string> {
  return { check: checkText, form: { kind: "text" } };
}

/**
 * A text of any characters that is not blank, such as a note of several lines.
 * @__NO_SIDE_EFFECTS__
 */
export function prose(): Shape<string> {
  return { check: checkProse, form: { kind: "text" } };
}
