import { didYouMean } from "../core/didYouMean.js";
import { InputError } from "../core/InputError.js";

/** What has a toner id. */
export interface HasId {
  readonly id: string;
}

/** Index of a toner by id; `unknown-toner` names the ids there are. */
export function tonerIndex(toners: readonly HasId[], id: string, path: string): number {
  const index = toners.findIndex((toner) => toner.id === id);
  if (index >= 0) return index;
  const known = toners.map((toner) => toner.id);
  const reason = `no toner "${id}" in the toner set; there are ${known.join(", ")}.${didYouMean(id, known)}`;
  throw new InputError("unknown-toner", path, reason);
}
