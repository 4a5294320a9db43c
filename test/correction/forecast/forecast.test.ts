import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { BeliefSizes } from "../../../src/belief/beliefSizes.js";
import { BELIEF_SIZES } from "../../../src/belief/beliefSizes.js";
import type { Cause } from "../../../src/belief/spread.js";
import { correct } from "../../../src/correction/correct.js";
import type { Forecast } from "../../../src/forecast/forecast.js";
import { forecastCard } from "../../../src/forecast/forecastCard.js";
import { FORECAST_OPTIONS, type ForecastOptions } from "../../../src/forecast/forecastOptions.js";
import { checkJob, type Job } from "../../../src/problem/job.js";
import { prepareProblem } from "../../../src/problem/problem.js";
import { type Grams, gramsInOrder } from "../../../src/toners/pot.js";
import { horseboxJob } from "../../fixtures/horsebox.js";
import { withoutDoubt } from "../../fixtures/noDoubt.js";
import { refusal } from "../../support/refusal.js";
import { between } from "../contract/jobs.js";

const job = horseboxJob();
const FEW = { draws: 200, drawsOfReturn: 20 } as const;

function forecastOf(one: Job, options: ForecastOptions = {}): Forecast {
  const { forecast } = correct(one, {
    alternatives: false,
    wayOut: false,
    forecast: { ...FEW, ...options },
  });
  if (!forecast) throw new Error("no forecast");
  return forecast;
}

/** The forecast of certain additions, whatever `correct` would pour. */
function forecastOfPouring(one: Job, additions: Grams, options: ForecastOptions = {}): Forecast {
  const checked = checkJob(one);
  const prepared = prepareProblem(checked);
  const grams = gramsInOrder(additions, prepared.problem.model.set.toners);
  return forecastCard(checked, prepared, grams, FORECAST_OPTIONS.check({ ...FEW, ...options }, ""));
}

const withStrengthSd = (sd: number): Job => ({
  ...job,
  toners: { ...job.toners, toners: job.toners.toners.map((toner) => ({ ...toner, strengthSd: sd })) },
});
const widthOf = ({ full }: Forecast) =>
  full.cards[0].labHigh.map((high, axis) => high - full.cards[0].labLow[axis]);
const added: Grams = { yellow: 4, violet: 1 };
const sure = withoutDoubt(between(job.toners, job.pot, { ...job.pot, yellow: 6, violet: 1 }));

describe("what to expect of the next card", () => {
  it("is there when asked for, and only then", () => {
    expect(correct(job)).not.toHaveProperty("forecast");
    expect(correct(job, { forecast: true })).toHaveProperty("forecast");
  });

  it("is the prediction itself, of no width, where nothing is in doubt", () => {
    const certain: Job = { ...sure, belief: { ...sure.belief, readingSd: 1e-9 } };
    const { predictions } = correct(certain, { alternatives: false, wayOut: false });
    const { full, causes } = forecastOf(certain);
    full.cards.forEach((card, i) => {
      card.lab.forEach((value, axis) => {
        expect(value).toBeCloseTo(predictions[i].labAfter[axis], 9);
        expect(card.labLow[axis]).toBeCloseTo(value, 5);
        expect(card.labHigh[axis]).toBeCloseTo(value, 5);
      });
      expect(card.deltaE00.low).toBeCloseTo(predictions[i].deltaE00After, 5);
      expect(card.deltaE00.high).toBeCloseTo(predictions[i].deltaE00After, 5);
    });
    expect(full.withinProbability).toBe(1);
    expect(full.noReturnProbability).toBe(0);
    expect(causes.reading).toBeCloseTo(1, 12);
  });

  it.each<readonly [keyof BeliefSizes, Cause]>([
    ["tonerCurveSd", "toner"],
    ["tonerScatteringSd", "toner"],
    ["paintCurveSd", "pot"],
    ["companySd", "pot"],
    ["k2Sd", "surface"],
    ["k2RiseSd", "surface"],
    ["offsetSd", "film"],
    ["gainSd", "film"],
    ["tiltSd", "film"],
    ["filmBuildSd", "film"],
    ["pourSd", "pour"],
    ["pourShareSd", "pour"],
  ])("is wider for %s alone, and says that the %s is behind it; shares add up to 1", (size, cause) => {
    const least = forecastOfPouring(sure, added);
    const doubted = { ...sure, belief: { ...sure.belief, [size]: BELIEF_SIZES[size] || 0.1 } };
    const { causes, ...forecast } = forecastOfPouring(doubted, added);
    const widths = widthOf({ ...forecast, causes });
    widthOf(least).forEach((width, axis) => {
      expect(widths[axis]).toBeGreaterThanOrEqual(width);
    });
    expect(Math.max(...widths.map((width, axis) => width - widthOf(least)[axis]))).toBeGreaterThan(1e-5);
    expect(least.causes[cause]).toBe(0);
    expect(causes[cause]).toBeGreaterThan(0);
    expect((causes[cause] as number) + causes.reading).toBeCloseTo(1, 12);
  });

  it("is wider where the cans are less known, and for a higher probability", () => {
    const pouring = (sd: number) => widthOf(forecastOfPouring(withStrengthSd(sd), added));
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 0.2, noNaN: true }), (sd) => {
        const [less, more] = [pouring(sd), pouring(1.5 * sd)];
        less.forEach((width, axis) => {
          expect(more[axis]).toBeGreaterThan(width);
        });
      }),
      { numRuns: 8, seed: 3 },
    );
    const [narrow, wide] = [0.8, 0.95].map((level) => forecastOf(job, { level }));
    narrow.full.cards.forEach((card, i) => {
      const wider = wide.full.cards[i];
      expect(wider.labLow[0]).toBeLessThan(card.labLow[0]);
      expect(wider.deltaE00.low).toBeLessThanOrEqual(card.deltaE00.low);
      expect(wider.deltaE00.high).toBeGreaterThan(card.deltaE00.high);
    });
  });

  it("comes out the same for a seed, and nearly the same for another", () => {
    expect(forecastOf(job)).toEqual(forecastOf(job));
    const [one, other] = [1, 2].map((seed) => forecastOf(job, { seed, draws: 2000 }).full.cards[0].deltaE00);
    expect(one).not.toEqual(other);
    expect(Math.abs(one.high - other.high)).toBeLessThan(0.15 * one.high);
  });

  it("of a card that is good enough already says what another card of the same pot would read", () => {
    const same = { ...job, targets: [{ name: "card again", readings: job.card.readings }] };
    const { pours, full, first } = forecastOf(same);
    expect(pours).toEqual([]);
    expect(first).toEqual(full);
    expect(full.cards[0].deltaE00.high).toBeGreaterThan(0);
    expect(full.cards[0].deltaE00.high).toBeLessThan(1);
    expect(full.withinProbability).toBeGreaterThan(0.5);
  });

  it("refuses what is no doubt, level or count, with its place", () => {
    const asked = (forecast: object) => refusal(() => correct(job, { forecast }));
    expect(asked({ level: 1 })).toEqual({ code: "out-of-range", path: "options.forecast.level" });
    expect(asked({ doubts: {} })).toEqual({ code: "unknown-key", path: "options.forecast.doubts" });
    expect(asked({ draws: 2.5 })).toEqual({ code: "wrong-type", path: "options.forecast.draws" });
  });
});

describe("how much to pour first", () => {
  it("is a share of every addition in whole steps of the scale, all of it where the strength is known", () => {
    const { pours, first } = forecastOf(job);
    expect(pours.length).toBeGreaterThan(0);
    for (const { toner, grams, firstGrams, share, strengthSd } of pours) {
      expect(Math.abs(10 * firstGrams - Math.round(10 * firstGrams))).toBeLessThan(1e-9);
      expect(firstGrams).toBeLessThanOrEqual(grams);
      if (strengthSd > 0.05) expect(share).toBeCloseTo(1 / (1 + 1.6448536 * strengthSd), 6);
      expect(first.grams[toner]).toBe(firstGrams);
    }
    for (const { share, grams, firstGrams } of forecastOf(withStrengthSd(0.03)).pours) {
      expect(share).toBe(1);
      expect(firstGrams).toBe(grams);
    }
  });

  it("what the card tells of a toner in the pot is used: its strength is known better than that of a new one", () => {
    const { pours } = forecastOfPouring(withStrengthSd(0.2), { ochre: 3, green: 2, violet: 1 });
    const sdOf = (id: string) => pours.find(({ toner }) => toner === id)?.strengthSd ?? Number.NaN;
    const inPot = pours.filter(({ toner }) => (job.pot[toner] ?? 0) > 0);
    const isNew = pours.filter(({ toner }) => !((job.pot[toner] ?? 0) > 0));
    expect(inPot.length).toBeGreaterThan(0);
    expect(isNew.length).toBeGreaterThan(0);
    for (const { toner } of inPot) expect(sdOf(toner)).toBeLessThan(0.15);
    for (const { toner } of isNew) expect(sdOf(toner)).toBeGreaterThanOrEqual(0.19);
  });
});
