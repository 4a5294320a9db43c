import { canPosterior } from "../belief/canPosterior.js";
import { sdsInPot } from "../belief/sdsInPot.js";
import { ciede2000 } from "../colorimetry/ciede2000.js";
import type { Lab } from "../colorimetry/lab.js";
import { createRandom } from "../numeric/probability/random.js";
import { labAt, labOfAim } from "../problem/goal.js";
import type { CheckedJob } from "../problem/job.js";
import { poured } from "../problem/poured.js";
import type { PreparedProblem } from "../problem/problem.js";
import { gramsById } from "../toners/pot.js";
import { scatteringShares } from "../toners/scatteringShares.js";
import { halfWidth } from "./drawColours.js";
import { firstShare, wholeSteps } from "./firstShare.js";
import type { CardForecast, FirstPour, Forecast, PourForecast } from "./forecast.js";
import type { CheckedForecastOptions } from "./forecastOptions.js";
import { drawCards, nextCard } from "./nextCard.js";
import { recoveryMargin } from "./recoveryMargin.js";
import { returnProbability } from "./returnProbability.js";

/**
 * What to expect of the card sprayed after `additions` (in the order of the toner set), how much of each to pour first,
 * and how much too much of each can be put right. Linear in each unknown around the likeliest world; ΔE00 by seeded
 * draws from the spread of Lab, since it is a norm.
 */
export function forecastCard(
  { targets }: Pick<CheckedJob, "targets">,
  prepared: Pick<PreparedProblem, "problem" | "belief">,
  additions: Float64Array,
  options: CheckedForecastOptions,
): Forecast {
  const { problem, belief } = prepared;
  const { model, bench } = problem;
  const { toners } = model.set;
  const shares = scatteringShares(model.coefficients, bench.pot);
  const strengthSds = sdsInPot(canPosterior(belief), shares);
  const first = new Float64Array(additions.length);
  const pours = [...poured(additions)]
    .sort((a, b) => additions[b] - additions[a])
    .map((j): FirstPour => {
      const strengthSd = strengthSds[j];
      const share = strengthSd <= options.knownSd ? 1 : firstShare(strengthSd, options.safety);
      first[j] = wholeSteps(additions[j], share, bench.unit[j]);
      const margin = recoveryMargin(problem, additions, j);
      return { toner: toners[j].id, grams: additions[j], firstGrams: first[j], share, strengthSd, margin };
    });
  const names = targets.map(({ name }) => name);
  const full = forecastPour(prepared, additions, { names, options });
  const isWhole = first.every((grams, j) => grams === additions[j]);
  const atFirst = isWhole ? full : forecastPour(prepared, first, { names, options });
  const isLost = ({ noReturnProbability }: PourForecast) => noReturnProbability > 1 - options.safety;
  return {
    level: options.level,
    safety: options.safety,
    pours,
    pour: isLost(full.pour) && !isLost(atFirst.pour) ? "first" : "full",
    full: full.pour,
    first: atFirst.pour,
    causes: full.causes,
  };
}

interface Known {
  readonly names: readonly string[];
  readonly options: CheckedForecastOptions;
}

function forecastPour(
  prepared: Pick<PreparedProblem, "problem" | "belief">,
  additions: Float64Array,
  { names, options }: Known,
): { readonly pour: PourForecast; readonly causes: Forecast["causes"] } {
  const { problem } = prepared;
  const { model, goal, work } = problem;
  const next = nextCard(prepared, additions);
  const { mean, covariance } = next;
  const random = createRandom(options.seed);
  const drawSteps = mean.length ** 2 / 2 + 20 * mean.length + 150 * goal.aims.length;
  const draws = Math.max(2, Math.min(options.draws, Math.floor((DRAWN_SHARE * work.left()) / drawSteps)));
  work.spend(draws * drawSteps);
  const drawnCards = drawCards(next, draws, random);
  const away = halfWidth(options.level);
  const drawn = goal.aims.map((aim) =>
    drawnCards.map((lab) => ciede2000(labOfAim(aim, lab), labAt(lab, aim.place))),
  );
  const within = drawnCards.filter((_, w) => goal.aims.every(({ allowed }, i) => drawn[i][w] <= allowed));
  const cards = goal.aims.map((aim, i): CardForecast => {
    const lab = labAt(mean, aim.place);
    const at = (sign: number) =>
      lab.map((value, axis) => {
        const place = aim.place + axis;
        return value + sign * away * Math.sqrt(covariance[place * mean.length + place]);
      }) as unknown as Lab;
    const sorted = Float64Array.from(drawn[i]).sort();
    return {
      target: names[aim.target],
      geometry: model.geometries[aim.geometry],
      illuminant: model.lights[aim.light].name,
      lab,
      labLow: at(-1),
      labHigh: at(1),
      deltaE00: {
        low: quantile(sorted, (1 - options.level) / 2),
        high: quantile(sorted, (1 + options.level) / 2),
      },
      deltaE00Median: quantile(sorted, 0.5),
      deltaE00Allowed: aim.allowed,
    };
  });
  const back = returnProbability(
    problem,
    additions,
    { mean, covariance: next.ofPaint, predicted: mean },
    { draws: options.drawsOfReturn, random },
  );
  const pour = {
    grams: gramsById(additions, model.set.toners),
    cards,
    withinProbability: within.length / drawnCards.length,
    noReturnProbability: 1 - back,
  };
  return { pour, causes: next.causes() };
}

/** Of the work left, what draws of ΔE00 may take: most is needed for the ways back. */
const DRAWN_SHARE = 0.2;

/** Of sorted values, linear between neighbours. */
function quantile(sorted: Float64Array, share: number): number {
  const place = share * (sorted.length - 1);
  const below = Math.floor(place);
  const above = Math.min(sorted.length - 1, below + 1);
  return sorted[below] + (place - below) * (sorted[above] - sorted[below]);
}
