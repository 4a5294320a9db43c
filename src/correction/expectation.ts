import { ciede2000 } from "../colorimetry/ciede2000.js";
import { FORECAST_DEFAULTS } from "../forecast/forecastOptions.js";
import { drawCards, nextCard } from "../forecast/nextCard.js";
import { createRandom } from "../numeric/probability/random.js";
import { labAt, labOfAim } from "../problem/goal.js";
import type { PreparedProblem } from "../problem/problem.js";
import type { Expectation } from "./correction.js";

const MOST = 0.9;

/** The chance of the next card, and how far off it is likely to be, by the same draws as a forecast of it. */
export function expectation(
  prepared: Pick<PreparedProblem, "problem" | "belief">,
  additions: Float64Array,
): Expectation {
  const { aims } = prepared.problem.goal;
  const drawn = drawCards(
    nextCard(prepared, additions),
    FORECAST_DEFAULTS.draws,
    createRandom(FORECAST_DEFAULTS.seed),
  ).map((lab) => {
    let worst = { share: -1, deltaE00: 0 };
    for (const aim of aims) {
      const { place, allowed } = aim;
      const deltaE00 = ciede2000(labOfAim(aim, lab), labAt(lab, place));
      if (deltaE00 / allowed > worst.share) worst = { share: deltaE00 / allowed, deltaE00 };
    }
    return worst;
  });
  const sorted = Float64Array.from(drawn, ({ deltaE00 }) => deltaE00).sort();
  return {
    withinProbability: drawn.filter(({ share }) => share <= 1).length / drawn.length,
    deltaE00Median: sorted[Math.floor(drawn.length / 2)],
    deltaE00Most: sorted[Math.floor(MOST * drawn.length)],
  };
}
