import { checkOneOf, checkRecord, pathTo } from "../check.js";
import { type Fields, record } from "./record.js";
import type { Shape } from "./shape.js";

type Case<Union, Tag extends keyof Union, K> = Omit<Extract<Union, { readonly [T in Tag]: K }>, Tag>;

/**
 * One of several records, told apart by the word under the key `tag`.
 * @__NO_SIDE_EFFECTS__
 */
export function variants<Union extends object, Tag extends keyof Union & string>(
  tag: Tag,
  cases: { readonly [K in Union[Tag] & string]: Fields<Case<Union, Tag, K>> },
): Shape<Union> {
  const words = Object.keys(cases) as (Union[Tag] & string)[];
  const shapes = new Map(
    words.map((word) => [word as string, record(cases[word] as Fields<object>)] as const),
  );
  return {
    check: (value, path) => {
      const { [tag]: word, ...rest } = checkRecord(value, path);
      const known = checkOneOf(word, pathTo(path, tag), words);
      return { [tag]: known, ...shapes.get(known)?.check(rest, path) } as Union;
    },
    form: { kind: "variants", tag, cases: shapes },
  };
}
