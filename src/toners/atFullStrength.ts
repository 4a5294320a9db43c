import type { TonerSet } from "./tonerSet.js";

/** The set with every can as characterised: how strong the cans in use are belongs to what is believed of them. */
export function atFullStrength(set: TonerSet): TonerSet {
  return { ...set, toners: set.toners.map((toner) => ({ ...toner, strength: 1 })) };
}
