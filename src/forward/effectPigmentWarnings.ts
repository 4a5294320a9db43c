import type { Warning } from "../core/warning.js";
import { isEffect, type Toner } from "../toners/toner.js";

/**
 * Said of flake and pearl in a mix, where nobody measured what spraying does to them: a film of two fluxes has no sides to lie on, so K and S per geometry carry over to
 * other mixes only as far as the flakes lie as they did in the films that K and S come from.
 */
export function effectPigmentWarnings(
  toners: readonly Toner[],
  grams: ArrayLike<number>,
): readonly Warning[] {
  const ids = toners
    .filter((toner, j) => isEffect(toner) && !toner.orientation && grams[j] > 0)
    .map(({ id }) => id);
  if (ids.length === 0) return [];
  const message = `${ids.join(", ")}: how flakes lie is not modelled, each geometry is computed by itself; take small steps and judge face and flop by the card`;
  return [{ code: "effect-pigments", message, toners: ids }];
}
