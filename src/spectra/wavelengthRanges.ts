/** Neighbours are one step apart, rounding of wavelengths apart; the next but one is two. */
const SLACK = 1.5;

/** Wavelengths of a grid, in any order, as ranges of neighbours: 400, 410, 430 at a step of 10 → 400–410, 430–430. */
export function wavelengthRanges(
  wavelengths: readonly number[],
  step: number,
): readonly (readonly [from: number, to: number])[] {
  const ranges: [number, number][] = [];
  for (const nm of [...wavelengths].sort((a, b) => a - b)) {
    const last = ranges.at(-1);
    if (last && nm - last[1] < step * SLACK) last[1] = nm;
    else ranges.push([nm, nm]);
  }
  return ranges;
}

/** The same for people: "400–410, 430 nm". */
export function wavelengthsText(wavelengths: readonly number[], step: number): string {
  const nm = (value: number) => `${Number(value.toFixed(2))}`;
  const ranges = wavelengthRanges(wavelengths, step);
  return `${ranges.map(([from, to]) => (from === to ? nm(from) : `${nm(from)}–${nm(to)}`)).join(", ")} nm`;
}
