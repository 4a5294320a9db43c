import type { Shape } from "./shape.js";
import { text } from "./text.js";

/**
 * The name of a file that holds the value, or the value itself.
 * @__NO_SIDE_EFFECTS__
 */
export function nameOr<T>(shape: Shape<T>): Shape<string | T> {
  const name = text();
  return {
    check: (value, path) => (typeof value === "string" ? name : shape).check(value, path),
    form: { kind: "nameOr", shape },
  };
}
