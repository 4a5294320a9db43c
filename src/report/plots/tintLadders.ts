import type { Sample } from "../../characterisation/sample.js";
import { sum } from "../../core/sum.js";

/** A toner let down with one other component in steps, the least of the toner first. */
export interface TintLadder {
  readonly toner: string;
  /** What it is let down with. */
  readonly with: string;
  readonly steps: readonly Sample[];
}

/** Fewer steps than this are no ladder. */
const FEWEST_STEPS = 2;

/**
 * The ladders among samples: all mixes of the same two components, with the masstone where there is one. Of the two
 * the one that more samples hold is what the other is let down with: the white or the binder of most ladders.
 */
export function tintLadders(samples: readonly Sample[]): readonly TintLadder[] {
  const uses = new Map<string, number>();
  for (const sample of samples) {
    for (const id of componentsOf(sample)) uses.set(id, (uses.get(id) ?? 0) + 1);
  }
  const pairs = new Map<string, readonly [toner: string, other: string]>();
  for (const sample of samples) {
    const ids = [...componentsOf(sample)].sort((a, b) => (uses.get(a) ?? 0) - (uses.get(b) ?? 0));
    if (ids.length === 2) pairs.set(JSON.stringify([...ids].sort()), [ids[0], ids[1]]);
  }
  return [...pairs.values()]
    .map(([toner, other]) => ({
      toner,
      with: other,
      steps: samples
        .filter((sample) => {
          const ids = componentsOf(sample);
          return ids.includes(toner) && ids.every((id) => id === toner || id === other);
        })
        .sort((a, b) => shareOf(a, toner) - shareOf(b, toner)),
    }))
    .filter(({ steps }) => steps.length >= FEWEST_STEPS);
}

/** Mass of a component ÷ mass of all, 0…1; NaN for an empty recipe. */
export function shareOf({ recipe }: Sample, id: string): number {
  const total = sum(Object.values(recipe));
  return (Object.hasOwn(recipe, id) ? recipe[id] : 0) / total;
}

function componentsOf({ recipe }: Sample): readonly string[] {
  return Object.keys(recipe).filter((id) => recipe[id] > 0);
}
