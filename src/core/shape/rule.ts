import type { JsonSchema, Shape } from "./shape.js";

/**
 * A shape with a rule that its parts cannot say one by one; `holds` throws InputError. `schema` is what a JSON Schema
 * can say of it.
 * @__NO_SIDE_EFFECTS__
 */
export function rule<T>(
  shape: Shape<T>,
  holds: (value: T, path: string) => void,
  schema: JsonSchema = {},
): Shape<T> {
  return {
    check: (value, path) => {
      const checked = shape.check(value, path);
      holds(checked, path);
      return checked;
    },
    form: { kind: "rule", shape, schema },
  };
}
