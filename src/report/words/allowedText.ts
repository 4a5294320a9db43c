/** A largest ΔE00 that still counts as a match; a light of no weight allows any. */
export const allowedText = (deltaE00: number): string =>
  Number.isFinite(deltaE00) ? deltaE00.toFixed(2) : "any";
