import type { Lab } from "../../colorimetry/lab.js";
import type { TonerDirection, TonerDirections } from "../../prediction/tonerDirections.js";

/** From here on two toners do the same to the eye (within about 8°), from here on nearly (25°): our choice. */
export const SAME = 0.99;
export const NEARLY = 0.9;

/** Toners that move the colour the same way, or nearly. */
export interface DirectionGroup {
  /** The strongest of them. */
  readonly leader: TonerDirection;
  /** The others, and how strong a gram of them is against one of the leader. */
  readonly others: readonly { readonly toner: string; readonly strength: number }[];
}

/** Toners by the way in which they move the colour, the strongest first. */
export function directionGroups({ directions }: TonerDirections): readonly DirectionGroup[] {
  const sorted = [...directions].sort((a, b) => b.deltaE00PerGram - a.deltaE00PerGram);
  const grouped = new Set<string>();
  return sorted.flatMap((leader) => {
    if (grouped.has(leader.toner)) return [];
    grouped.add(leader.toner);
    const like = leader.alike.filter(({ toner, cosine }) => cosine >= NEARLY && !grouped.has(toner));
    for (const { toner } of like) grouped.add(toner);
    const others = like.map(({ toner }) => {
      const { deltaE00PerGram } = directions.find((one) => one.toner === toner) ?? leader;
      return { toner, strength: deltaE00PerGram / leader.deltaE00PerGram };
    });
    return [{ leader, others }];
  });
}

/** The colour once one per cent of the pot of a toner is added, at the first geometry under the first light. */
export function movedByPerCent(
  { colours }: Pick<TonerDirections, "colours">,
  { perCent }: Pick<TonerDirection, "perCent">,
): Lab {
  const [{ lab }] = colours;
  const [{ deltaLab }] = perCent;
  return [lab[0] + deltaLab[0], lab[1] + deltaLab[1], lab[2] + deltaLab[2]];
}
