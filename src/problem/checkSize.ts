import type { Viewing } from "../colorimetry/viewing.js";
import { InputError } from "../core/InputError.js";
import { sum } from "../core/sum.js";
import type { TonerSet } from "../toners/tonerSet.js";

/** Most colours to match, and most toners × readings × bands: jobs of this size end within `maxWork`. */
export const MOST_COLOURS = 600;
export const MOST_NUMBERS = 500_000;
/** Most numbers that were seen of targets whose spectra are inferred: each is an equation of one belief. */
export const MOST_SEEN = 1000;

interface Seen {
  readonly readings: readonly { readonly geometry: string }[];
  readonly colours: readonly { readonly geometry: string }[];
  readonly comparisons: readonly unknown[];
}

/** Throws `too-large` for a job beyond these sizes; the message names the limit and what counts towards it. */
export function checkSize({
  toners,
  viewing,
  targets,
}: {
  readonly toners: TonerSet;
  readonly viewing: Viewing;
  readonly targets: readonly Seen[];
}): void {
  const readings = sum(targets.map(geometriesOf));
  const colours = readings * viewing.illuminants.length;
  if (colours > MOST_COLOURS) {
    throw new InputError(
      "too-large",
      "targets",
      `${readings} readings under ${viewing.illuminants.length} illuminants are ${colours} colours to match: at most ${MOST_COLOURS}`,
    );
  }
  const numbers = toners.toners.length * readings * toners.grid.count;
  if (numbers > MOST_NUMBERS) {
    throw new InputError(
      "too-large",
      "toners",
      `${toners.toners.length} toners × ${readings} readings × ${toners.grid.count} bands are ${numbers} numbers: at most ${MOST_NUMBERS}`,
    );
  }
  const seen = sum(targets.map((target) => equationsOf(target, toners.grid.count)));
  if (seen > MOST_SEEN) {
    throw new InputError(
      "too-large",
      "targets",
      `${seen} numbers were seen of the targets that colours or comparisons tell of: at most ${MOST_SEEN}`,
    );
  }
}

/** Geometries that something was seen of a target at; an eye looks at one. */
function geometriesOf({ readings, colours, comparisons }: Seen): number {
  const measured = new Set([...readings, ...colours].map(({ geometry }) => geometry)).size;
  return Math.max(measured, comparisons.length > 0 ? 1 : 0);
}

/** L*, a*, b* of a colour, and at most three components of a comparison. */
const COMPONENTS = 3;

/** None where spectra alone tell of a target. */
function equationsOf({ readings, colours, comparisons }: Seen, bands: number): number {
  const told = COMPONENTS * (colours.length + comparisons.length);
  return told === 0 ? 0 : told + readings.length * bands;
}
