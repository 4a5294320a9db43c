import type { Limits } from "../problem/limits.js";
import type { MassDisplay } from "../report/words/massText.js";
import type { MassUnit } from "../toners/massUnit.js";

/** How amounts are shown: in the unit asked for, with the drops that all the limits which name them agree on. */
export function displayOf(unit: MassUnit = "g", ...limits: readonly (Limits | undefined)[]): MassDisplay {
  const said = limits.flatMap((one) => Object.entries(one?.gramsPerDrop ?? {}));
  const isAgreed = (id: string, grams: number) =>
    said.every(([other, also]) => other !== id || also === grams);
  return { unit, gramsPerDrop: Object.fromEntries(said.filter(([id, grams]) => isAgreed(id, grams))) };
}
