import { InputError } from "../core/InputError.js";

/** The two halves of `white=12.5`; a name may hold the sign itself. Throws `usage`. */
export function pairOf(value: string, option: string): readonly [name: string, said: string] {
  const at = value.lastIndexOf("=");
  if (at > 0 && at < value.length - 1) return [value.slice(0, at), value.slice(at + 1)];
  throw new InputError("usage", option, `"${value}" is no pair; write it as white=12.5`);
}
