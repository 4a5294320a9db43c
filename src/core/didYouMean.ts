/**
 * ` Did you mean "…"?` for a word that is nearly one of those known, else nothing. Nearly: upper case aside, at most a
 * third of its letters inserted, left out, replaced or swapped with a neighbour (at least one, at most three).
 */
export function didYouMean(word: string, known: readonly string[]): string {
  const most = Math.min(3, Math.max(1, Math.floor(word.length / 3)));
  const plain = word.slice(0, 60).toLowerCase();
  const near = known
    .map((candidate) => ({ candidate, steps: stepsBetween(plain, candidate.toLowerCase()) }))
    .filter(({ candidate, steps }) => steps <= most && steps < candidate.length)
    .sort((a, b) => a.steps - b.steps);
  return near.length === 0 ? "" : ` Did you mean "${near[0].candidate}"?`;
}

/** Edits from one word to another (optimal string alignment: Damerau 1964, no letter edited twice). */
function stepsBetween(from: string, to: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: to.length + 1 }, (_, j) => j);
  for (let i = 1; i <= from.length; i++) {
    const row = [i];
    for (let j = 1; j <= to.length; j++) {
      const replaced = last[j - 1] + (from[i - 1] === to[j - 1] ? 0 : 1);
      const isSwap = i > 1 && j > 1 && from[i - 1] === to[j - 2] && from[i - 2] === to[j - 1];
      row[j] = Math.min(last[j] + 1, row[j - 1] + 1, replaced, isSwap ? beforeLast[j - 2] + 1 : replaced);
    }
    beforeLast = last;
    last = row;
  }
  return last[to.length];
}
