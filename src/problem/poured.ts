/** An addition below this many grams is no pour: no scale shows it. */
const LEAST_POUR_GRAMS = 1e-5;

/** Toners that additions really pour, as indices into the toner set. */
export function poured(additions: ArrayLike<number>): readonly number[] {
  return Array.from(additions, (_, j) => j).filter((j) => additions[j] > LEAST_POUR_GRAMS);
}

/** All that is poured, in grams. */
export function gramsOf(amounts: ArrayLike<number>): number {
  let sum = 0;
  for (let j = 0; j < amounts.length; j++) sum += amounts[j];
  return sum;
}
