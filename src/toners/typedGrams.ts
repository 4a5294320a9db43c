import { checkNumber, type Range } from "../core/check.js";
import { InputError } from "../core/InputError.js";
import { typedNumber } from "../core/typedNumber.js";
import type { MassUnit } from "./massUnit.js";
import { FINEST_GRAMS, MOST_GRAMS } from "./pot.js";

/** The avoirdupois ounce, exact by the international agreement of 1959. */
export const GRAMS_PER_OUNCE = 28.349523125;

const POURED: Range = { min: FINEST_GRAMS, max: MOST_GRAMS };

/** What is known where a number is typed. */
export interface TypedAmount {
  /** Of this toner. */
  readonly gramsPerDrop?: number | undefined;
  /** Of a number without one; grams when absent. */
  readonly unit?: MassUnit | undefined;
}

/**
 * Grams of what a person typed: `12.5`, `12.5g`, `0.44 oz` (avoirdupois), or `12 drops` of a toner whose drops are
 * known. Throws as `typedNumber` does, `out-of-range`, `unknown-word` for other units, `missing` for unknown drops and
 * where drops are usual and a number has no unit.
 */
export function typedGrams(
  text: string,
  path: string,
  { gramsPerDrop, unit = "g" }: TypedAmount = {},
): number {
  const { value, unit: said } = typedNumber(text, path);
  if (said === "" && unit === "drops") {
    throw new InputError("missing", path, `"${text}": say ${value}drops or ${value}g`);
  }
  const typed = said === "" ? unit : said.toLowerCase();
  return checkNumber(value * gramsPer(typed, { text, path, gramsPerDrop }), path, POURED);
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
