import { checkRecord, pathTo } from "../check.js";
import type { Shape } from "./shape.js";

/**
 * Values under keys that are names, such as toner ids: any key may stand there, `constructor` and `__proto__` too,
 * unless `key` says which.
 * @__NO_SIDE_EFFECTS__
 */
export function map<T, K extends string = string>(
  entry: Shape<T>,
  key?: Shape<K>,
): Shape<Readonly<Record<K, T>>> {
  return {
    check: (value, path) =>
      Object.fromEntries(
        Object.entries(checkRecord(value, path)).map(([name, one]) => {
          const place = pathTo(path, name);
          key?.check(name, place);
          return [name, entry.check(one, place)];
        }),
      ) as Readonly<Record<K, T>>,
    form: { kind: "map", entry, key },
  };
}
