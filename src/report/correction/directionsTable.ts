import type { TonerDirections } from "../../prediction/tonerDirections.js";
import { colourWords } from "../words/colourWords.js";
import { decimals } from "../words/decimals.js";
import { gramsText } from "../words/gramsText.js";
import type { Table } from "../words/table.js";
import { type DirectionGroup, directionGroups, movedByPerCent } from "./directionGroups.js";

/**
 * Who moves where: a row for each way, its strongest toner first, how far one per cent of the pot of it moves the colour,
 * how many grams of which other toners do what one gram of it does, and what that is in words.
 */
export function directionsTable(answer: TonerDirections, nameOf: (id: string) => string): Table {
  const [{ lab }] = answer.colours;
  return {
    head: ["toner", "1 % moves", "or for 1 g of it", "which makes it"],
    rows: directionGroups(answer).map((group) => [
      nameOf(group.leader.toner),
      decimals(group.leader.perCent[0].deltaE00, 2),
      alikeText(group, nameOf),
      colourWords(lab, movedByPerCent(answer, group.leader)),
    ]),
    right: [1],
  };
}

function alikeText({ others }: DirectionGroup, nameOf: (id: string) => string): string {
  return others
    .map(({ toner, strength }) => `${Number((1 / strength).toPrecision(2))} g ${nameOf(toner)}`)
    .join(", ");
}

/** Where the moves start, and what stands behind them. */
export function directionsHeadline({ colours, isAnchored, potGrams }: TonerDirections): string {
  const [{ geometry, illuminant }] = colours;
  const tied = isAnchored
    ? "tied to its card"
    : "by the toners alone: no card has shown yet what is in the pot, so trust the way more than the length";
  return `What each toner does to the pot now, ${tied} (ΔE00, ${illuminant}, ${geometry}); 1 % of the pot is ${gramsText(potGrams / 100)} g.`;
}
