import type { Characterisation } from "../characterisation/characterisation.js";
import { decimals } from "./decimals.js";

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

/** One sentence: whether the samples determine all that was asked of them, and how the fit ended. */
export function fitSentence({ rank, unknowns, condition, stopReason, iterations }: Characterisation): string {
  const told =
    rank >= unknowns
      ? `all ${unknowns} unknowns are determined`
      : `only ${rank} of ${unknowns} unknowns are determined`;
  const scaled = Number.isFinite(condition)
    ? `condition ${condition.toExponential(1).replace("e+", "e")}`
    : "condition without bound";
  return `The fit: ${told} (${scaled}); it stopped with "${stopReason}" after ${counted(iterations, "iteration")}.`;
}

function counted(count: number, what: string): string {
  return `${decimals(count, 0)} ${what}${count === 1 ? "" : "s"}`;
}
