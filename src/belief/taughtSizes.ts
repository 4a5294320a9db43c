import type { LearntStrengths, Repeated } from "../toners/learntStrengths.js";

/** The sizes that films have taught. */
export function taughtSizes({
  repeats = {},
}: Pick<LearntStrengths, "repeats">): Partial<Record<Repeated, number>> {
  return Object.fromEntries(Object.entries(repeats).map(([size, { sd }]) => [size, sd] as const));
}
