import { InputError } from "../core/InputError.js";
import type { Grams } from "./pot.js";
import type { TonerSet } from "./tonerSet.js";

/** Throws `generic-toner` where a pot holds a toner of which no tint card was learnt from: no pot of it can be predicted. */
export function checkNotGeneric(grams: Grams, path: string, { toners }: TonerSet): void {
  const found = toners.find(
    ({ id, provenance }) => provenance === "generic" && Object.hasOwn(grams, id) && grams[id] > 0,
  );
  if (!found) return;
  const reason = `${found.id} is generic, not characterised: correct from a card of the pot, or learn from a tint card of it (white and this toner alone) first`;
  throw new InputError("generic-toner", `${path}.${found.id}`, reason);
}
