import type { MassUnit } from "../../toners/massUnit.js";
import type { Grams } from "../../toners/pot.js";
import { GRAMS_PER_OUNCE } from "../../toners/typedGrams.js";
import { gramsText } from "./gramsText.js";

/** In which unit amounts are shown. */
export interface MassDisplay {
  readonly unit: MassUnit;
  /**
   * Grams in a drop, as in the limits of a job; amounts of several toners, or of a toner not named here, are shown in
   * grams.
   */
  readonly gramsPerDrop?: Grams;
}

export const IN_GRAMS: MassDisplay = Object.freeze({ unit: "g" });

/**
 * An amount with its unit: grams as the scale shows them, thousandths of an ounce, or drops of the toner named, where it is a
 * number of drops that one counts.
 */
export function massText(grams: number, { unit, gramsPerDrop = {} }: MassDisplay, toner?: string): string {
  if (unit === "oz") return `${(grams / GRAMS_PER_OUNCE).toFixed(3)} oz`;
  if (unit === "drops" && toner !== undefined && Object.hasOwn(gramsPerDrop, toner)) {
    const drops = grams / gramsPerDrop[toner];
    if (isCounted(drops)) return dropsText(drops);
  }
  return `${gramsText(grams)} g`;
}

/** Nobody counts more drops than this: they are weighed (common practice, no source). */
const MOST_DROPS = 60;

/** Whether an amount is a number of drops that one counts: whole, and not too many. */
function isCounted(drops: number): boolean {
  return drops <= MOST_DROPS && Math.abs(drops - Math.round(drops)) < 0.05;
}

/** A whole number of drops. */
export function dropsText(drops: number): string {
  const text = drops.toFixed(0);
  return `${text} ${text === "1" ? "drop" : "drops"}`;
}

/** Head of a column of `massCell`. */
export const massHead = ({ unit }: MassDisplay): string => (unit === "g" ? "grams" : "amount");

/** An amount in a column of amounts: grams stand in its head, other units in every cell, since they may mix. */
export function massCell(grams: number, display: MassDisplay, toner?: string): string {
  return display.unit === "g" ? gramsText(grams) : massText(grams, display, toner);
}

/** Toners that are shown in grams although drops were asked for. */
export function uncalibratedText(
  { unit, gramsPerDrop = {} }: MassDisplay,
  toners: readonly string[],
  nameOf: (id: string) => string,
): string {
  const without = [...new Set(toners)].filter((id) => !Object.hasOwn(gramsPerDrop, id));
  if (unit !== "drops" || without.length === 0) return "";
  return `In grams, since the limits do not say what a drop weighs (gramsPerDrop): ${without.map(nameOf).join(", ")}.`;
}

/** A line that names the toners shown in grams although drops were asked for. */
export function inGramsText({ unit }: MassDisplay, toners: readonly string[]): string {
  if (unit !== "drops" || toners.length === 0) return "";
  return `In grams: what has no drop weight (gramsPerDrop) or is no whole 1–${MOST_DROPS} drops.`;
}
