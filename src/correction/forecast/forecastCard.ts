import { ciede2000 } from "../../colorimetry/ciede2000.js";
import type { Lab } from "../../colorimetry/lab.js";
import { createRandom } from "../../numeric/random.js";
import { gramsById } from "../../toners/pot.js";
import { after } from "../after.js";
import { labAt } from "../goal.js";
import type { CheckedJob } from "../job.js";
import { poured } from "../poured.js";
import type { Problem } from "../problem.js";
import { type CardWorlds, cardWorlds, drawCards } from "./cardWorlds.js";
import { halfWidth } from "./drawColours.js";
import { firstShare, relativeStrengthSd, wholeSteps } from "./firstShare.js";
import type { CardForecast, FirstPour, Forecast, PourForecast } from "./forecast.js";
import type { CheckedForecastOptions } from "./forecastOptions.js";
import { type LabSpread, totalSpread } from "./labSpread.js";
import { recoveryMargin } from "./recoveryMargin.js";
import { returnProbability } from "./returnProbability.js";

/** What is true of the paint in the pot, and not only of one card of it or one reading. */
const OF_THE_PAINT = ["strength", "pouring", "characterisation", "model", "tie"] as const;

/**
 * What to expect of the card sprayed after `additions` (in the order of the toner set), how much of each to pour first,
 * and how much too much of each can be put right. Linear in each doubt around the mean strengths that the card leaves;
 * ΔE00 by seeded draws from the spread of Lab, since it is a norm.
 */
export function forecastCard(
  { targets }: Pick<CheckedJob, "targets">,
  problem: Problem,
  additions: Float64Array,
  options: CheckedForecastOptions,
): Forecast {
  const { model, bench } = problem;
  const { toners } = model.set;
  const worlds = cardWorlds(problem, additions, options.doubts);
  const first = new Float64Array(additions.length);
  const pours = [...poured(additions)]
    .sort((a, b) => additions[b] - additions[a])
    .map((j): FirstPour => {
      const strengthSd = relativeStrengthSd(worlds.sprayed, worlds.belief, j);
      const share = strengthSd <= options.knownSd ? 1 : firstShare(strengthSd, options.safety);
      first[j] = wholeSteps(additions[j], share, bench.unit[j]);
      const margin = recoveryMargin(problem, additions, j);
      return { toner: toners[j].id, grams: additions[j], firstGrams: first[j], share, strengthSd, margin };
    });
  const names = targets.map(({ name }) => name);
  const full = forecastPour(problem, additions, { worlds, names, options });
  const isWhole = first.every((grams, j) => grams === additions[j]);
  const atFirst = isWhole ? full : forecastPour(problem, first, { worlds, names, options });
  const isLost = ({ noReturnProbability }: PourForecast) => noReturnProbability > 1 - options.safety;
  return {
    level: options.level,
    safety: options.safety,
    pours,
    pour: isLost(full.pour) && !isLost(atFirst.pour) ? "first" : "full",
    full: full.pour,
    first: atFirst.pour,
    causes: shares(full.spread),
  };
}

interface Known {
  readonly worlds: CardWorlds;
  readonly names: readonly string[];
  readonly options: CheckedForecastOptions;
}

function forecastPour(
  problem: Problem,
  additions: Float64Array,
  { worlds, names, options }: Known,
): { readonly pour: PourForecast; readonly spread: LabSpread } {
  const { model, goal, work } = problem;
  const next = worlds.after(additions);
  const { mean, spread } = next;
  const covariance = totalSpread(spread);
  const random = createRandom(options.seed);
  const drawSteps = mean.length ** 2 / 2 + 20 * mean.length + 150 * goal.aims.length;
  const draws = Math.max(2, Math.min(options.draws, Math.floor((DRAWN_SHARE * work.left()) / drawSteps)));
  work.spend(draws * drawSteps);
  const drawnCards = drawCards(next, draws, random);
  const away = halfWidth(options.level);
  const drawn = goal.aims.map((aim) => drawnCards.map((lab) => ciede2000(aim.lab, labAt(lab, aim.place))));
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
    { mean, covariance: totalSpread(spread, OF_THE_PAINT), predicted: after(problem, additions).lab },
    { draws: options.drawsOfReturn, random },
  );
  const pour = {
    grams: gramsById(additions, model.set.toners),
    cards,
    withinProbability: within.length / drawnCards.length,
    noReturnProbability: 1 - back,
  };
  return { pour, spread };
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

function shares(spread: LabSpread): Forecast["causes"] {
  const width = Math.sqrt(spread.strength.length);
  const variance = (covariance: Float64Array) =>
    [0, 1, 2].reduce((sum, axis) => sum + covariance[axis * (width + 1)], 0);
  const all = variance(totalSpread(spread));
  const causes = Object.entries(spread).map(([cause, of]) => [cause, all > 0 ? variance(of) / all : 0]);
  return Object.fromEntries(causes) as Forecast["causes"];
}
