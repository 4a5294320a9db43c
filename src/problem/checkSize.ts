import type { Viewing } from "../colorimetry/viewing.js";
import { InputError } from "../core/InputError.js";
import type { TonerSet } from "../toners/tonerSet.js";

/** Most colours to match, and most toners × readings × bands: jobs of this size end within `maxWork`. */
export const MOST_COLOURS = 600;
export const MOST_NUMBERS = 500_000;

/** Throws `too-large` for a job beyond these sizes; the message names the limit and what counts towards it. */
export function checkSize({
  toners,
  viewing,
  targets,
}: {
  readonly toners: TonerSet;
  readonly viewing: Viewing;
  readonly targets: readonly { readonly readings: readonly unknown[] }[];
}): void {
  const readings = targets.reduce((sum, target) => sum + target.readings.length, 0);
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
}
