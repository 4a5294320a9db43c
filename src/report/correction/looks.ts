import { srgbHex } from "../../colorimetry/colorjs.js";
import type { Correction, TargetPrediction } from "../../correction/correction.js";
import { element, type Markup } from "../chart/element.js";
import { swatches } from "../page/swatches.js";
import { colourWords } from "../words/colourWords.js";
import { predictedOf } from "./flopText.js";

/** Most swatches side by side; the table has all colours. */
const MOST_SWATCHES = 6;

/** A face brighter than white is white on a screen, whatever its colour. */
const isShown = ({ labBefore, labTarget }: TargetPrediction) => Math.min(labBefore[0], labTarget[0]) < 100;

/** What is shown beside card and target; null where nothing is predicted, or nothing changes. */
export function shownAfter(correction: Correction): ReturnType<typeof predictedOf> {
  const { status, additions } = correction;
  return status === "respray" || additions.length > 0 ? predictedOf(correction) : null;
}

/**
 * Under the first light every target at every geometry, between card and mix so that it touches both; where nothing
 * changes, beside the card.
 */
export function looks(correction: Correction): readonly Markup[] {
  const { predictions } = correction;
  const after = shownAfter(correction);
  const [{ illuminant }] = predictions;
  const seen = predictions.filter((prediction) => prediction.illuminant === illuminant);
  const isOneGeometry = seen.every(({ geometry }) => geometry === seen[0].geometry);
  const told = seen.filter(isShown).slice(0, MOST_SWATCHES);
  const shown = told.map(({ target, geometry, labBefore, labAfter, labTarget }) => {
    const title = isOneGeometry ? target : `${target}, ${geometry}`;
    const words = colourWords(labTarget, after === null ? labBefore : labAfter);
    return element(
      "figure",
      {},
      element("figcaption", {}, `${title}: ${words}`),
      swatches(`${title}: card, target${after === null ? "" : `, ${after}`}`, [
        { name: "card", lab: labBefore },
        { name: "target", lab: labTarget },
        ...(after === null ? [] : [{ name: after === "sprayed so" ? after : "after", lab: labAfter }]),
      ]),
    );
  });
  const isMapped = told.some(({ labBefore, labAfter, labTarget }) =>
    [labBefore, labAfter, labTarget].some((lab) => srgbHex(lab).mapped),
  );
  const left = seen.length - shown.length;
  const more = left > 0 ? ` ${left} more are in the table.` : "";
  const what = after === null ? "card is" : "mix will be";
  return [
    element("div", { class: "look" }, ...shown),
    element(
      "p",
      { class: "note" },
      `Under ${illuminant}; the words say what the ${what} against the target.${more} A screen or print is no proof.${isMapped ? " *: no screen shows it." : ""}`,
    ),
  ];
}
