import type { Characterisation } from "../../characterisation/characterisation.js";
import { decimals } from "../words/decimals.js";

const METHODS = {
  "two-backings": "from films over two backings",
  "masstone-and-tint": "from masstones and tints",
  ladders: "from tint ladders",
  joint: "from all samples at once",
} as const satisfies Record<Characterisation["method"], string>;

const BASES = {
  relative: "relative to the scattering of a reference toner",
  "per-film": "per film as drawn down",
  "per-micrometre": "per µm of dry film",
} as const satisfies Record<Characterisation["basis"], string>;

/** One sentence: how many toners from how many samples, by which method, in which unit. */
export function characterisationHeadline({ toners, samples, method, basis }: Characterisation): string {
  return `Characterised ${counted(toners.toners.length, "toner")} ${METHODS[method]} (${counted(samples.length, "sample")}); K and S are ${BASES[basis]}.`;
}

/** Whether the samples determine all that was asked of them, how the fit ended, and how large its residuals are. */
export function fitSentence(characterisation: Characterisation): string {
  const { rank, unknowns, condition, stopReason, iterations, noiseScale } = characterisation;
  const told =
    rank >= unknowns
      ? `all ${unknowns} unknowns are determined`
      : `only ${rank} of ${unknowns} unknowns are determined`;
  const scaled = Number.isFinite(condition)
    ? `condition ${condition.toExponential(1).replace("e+", "e")}`
    : "condition without bound";
  const end = `it stopped with "${stopReason}" after ${counted(iterations, "iteration")}`;
  const noise =
    noiseScale === undefined
      ? ""
      : ` Residuals are ${decimals(noiseScale, 2)} times the noise that was stated.`;
  return `The fit: ${told} (${scaled}); ${end}.${noise}`;
}

function counted(count: number, what: string): string {
  return `${decimals(count, 0)} ${what}${count === 1 ? "" : "s"}`;
}
