import { checkNumber, type Range } from "../core/check.js";
import { InputError } from "../core/InputError.js";
import { typedNumber } from "../core/typedNumber.js";
import { FINEST_GRAMS, MOST_GRAMS } from "./pot.js";

/** The avoirdupois ounce, exact by the international agreement of 1959. */
export const GRAMS_PER_OUNCE = 28.349523125;

const POURED: Range = { min: FINEST_GRAMS, max: MOST_GRAMS };

/**
 * Grams of what a person typed: `12.5`, `12.5g`, `0.44 oz` (avoirdupois), or `12 drops` of a toner whose drops are
 * known. Throws as `typedNumber` does, `out-of-range`, `unknown-word` for other units, `missing` for unknown drops.
 */
export function typedGrams(text: string, path: string, gramsPerDrop?: number): number {
  const { value, unit } = typedNumber(text, path);
  return checkNumber(value * gramsPer(unit.toLowerCase(), { text, path, gramsPerDrop }), path, POURED);
}

function gramsPer(
  unit: string,
  {
    text,
    path,
    gramsPerDrop,
  }: { readonly text: string; readonly path: string; readonly gramsPerDrop: number | undefined },
): number {
  switch (unit) {
    case "":
    case "g":
      return 1;
    case "oz":
      return GRAMS_PER_OUNCE;
    case "drop":
    case "drops": {
      if (gramsPerDrop !== undefined) return gramsPerDrop;
      const reason = `"${text}": what a drop weighs is not known here; say it in limits.gramsPerDrop of the job, or give grams`;
      throw new InputError("missing", path, reason);
    }
    default:
      throw new InputError("unknown-word", path, `"${text}": the unit is none of g, oz, drops`);
  }
}
