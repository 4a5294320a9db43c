/** An addition below this many grams is no pour: no scale shows it. */
const LEAST_POUR_GRAMS = 1e-5;

/** Toners that additions really pour, as indices into the toner set. */
export function poured(additions: ArrayLike<number>): readonly number[] {
  return Array.from(additions, (_, j) => j).filter((j) => additions[j] > LEAST_POUR_GRAMS);
}
