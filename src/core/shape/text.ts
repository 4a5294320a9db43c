import { checkText } from "../check.js";
import type { Shape } from "./shape.js";

/**
 * A text that is not blank.
 * @__NO_SIDE_EFFECTS__
 */
export function text(): Shape<string> {
  return { check: checkText, form: { kind: "text" } };
}
