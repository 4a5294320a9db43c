import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { correct } from "../../../src/correction/correct.js";
import { DOUBTS, type Doubts } from "../../../src/correction/forecast/doubts.js";
import type { Forecast } from "../../../src/correction/forecast/forecast.js";
import type { ForecastOptions } from "../../../src/correction/forecast/forecastOptions.js";
import type { Job } from "../../../src/correction/job.js";
import { horseboxJob } from "../../fixtures/horsebox.js";
import { refusal } from "../../support/refusal.js";

const job = horseboxJob();
const FEW = { draws: 200, drawsOfReturn: 20 } as const;
const NO_DOUBT: Doubts = {
  strength: 0,
  strengthSd: 0,
  pouring: 0,
  reading: 0,
  targetReading: 0,
  spraying: 0,
  gloss: 0,
  characterisation: 0,
  model: 0,
  tie: 0,
};

function forecastOf(one: Job, options: ForecastOptions = {}): Forecast {
  const { forecast } = correct(one, {
    alternatives: false,
    wayOut: false,
    forecast: { ...FEW, ...options },
  });
  if (!forecast) throw new Error("no forecast");
  return forecast;
}

const withStrengthSd = (sd: number): Job => ({
  ...job,
  toners: { ...job.toners, toners: job.toners.toners.map((toner) => ({ ...toner, strengthSd: sd })) },
});
const widthOf = ({ full }: Forecast) =>
  full.cards[0].labHigh.map((high, axis) => high - full.cards[0].labLow[axis]);

describe("what to expect of the next card", () => {
  it("is there when asked for, and only then", () => {
    expect(correct(job)).not.toHaveProperty("forecast");
    expect(correct(job, { forecast: true })).toHaveProperty("forecast");
  });

  it("is the prediction itself, of no width, where nothing is in doubt", () => {
    const { predictions } = correct(job, { alternatives: false, wayOut: false });
    const { full, causes } = forecastOf(job, { doubts: NO_DOUBT });
    full.cards.forEach((card, i) => {
      card.lab.forEach((value, axis) => {
        expect(value).toBeCloseTo(predictions[i].labAfter[axis], 9);
      });
      expect(card.labLow).toEqual(card.lab);
      expect(card.labHigh).toEqual(card.lab);
      expect(card.deltaE00.low).toBeCloseTo(predictions[i].deltaE00After, 7);
      expect(card.deltaE00.high).toBeCloseTo(predictions[i].deltaE00After, 7);
    });
    expect(full.withinProbability).toBe(1);
    expect(full.noReturnProbability).toBe(0);
    expect(Object.values(causes).every((share) => share === 0)).toBe(true);
  });

  it("every doubt by itself spreads it, and their shares add up to 1", () => {
    const uncertain: Job = {
      ...job,
      toners: {
        ...job.toners,
        uncertainty: [
          {
            white: {
              k: { "d:8 specular excluded": new Array(31).fill(0.05) },
              s: { "d:8 specular excluded": new Array(31).fill(0) },
            },
            ochre: {
              k: { "d:8 specular excluded": new Array(31).fill(-0.1) },
              s: { "d:8 specular excluded": new Array(31).fill(0) },
            },
          },
        ],
      },
    };
    const causes = Object.keys(NO_DOUBT).filter((key) => key !== "strengthSd") as (keyof Doubts)[];
    for (const cause of causes) {
      const size = cause === "targetReading" ? 0.001 : DOUBTS[cause];
      const forecast = forecastOf(uncertain, { doubts: { ...NO_DOUBT, [cause]: size } });
      expect(Math.max(...widthOf(forecast)), cause).toBeGreaterThan(1e-4);
      expect(forecast.causes, cause).toMatchObject({ [cause]: 1 });
    }
    const sum = Object.values(forecastOf(uncertain).causes).reduce((all, share) => all + share, 0);
    expect(sum).toBeCloseTo(1, 12);
  });

  it("is the wider the less the cans are known and the surer it must be", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 0.2, noNaN: true }), (sd) => {
        const [less, more] = [sd, 1.5 * sd].map((each) =>
          widthOf(forecastOf(withStrengthSd(each), { doubts: { ...NO_DOUBT, strength: 1 } })),
        );
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
    expect(asked({ doubts: { strengt: 1 } })).toEqual({
      code: "unknown-key",
      path: "options.forecast.doubts.strengt",
    });
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
    for (const { share, grams, firstGrams } of forecastOf(withStrengthSd(0.04)).pours) {
      expect(share).toBe(1);
      expect(firstGrams).toBe(grams);
    }
  });

  it("what the card tells of a toner in the pot is used: its strength is known better than that of a new one", () => {
    const { pours } = forecastOf(withStrengthSd(0.2));
    const sdOf = (id: string) => pours.find(({ toner }) => toner === id)?.strengthSd ?? Number.NaN;
    const inPot = pours.filter(({ toner }) => (job.pot[toner] ?? 0) > 0);
    const isNew = pours.filter(({ toner }) => !((job.pot[toner] ?? 0) > 0));
    expect(inPot.length).toBeGreaterThan(0);
    expect(isNew.length).toBeGreaterThan(0);
    for (const { toner } of inPot) expect(sdOf(toner)).toBeLessThan(0.15);
    for (const { toner } of isNew) expect(sdOf(toner)).toBeGreaterThanOrEqual(0.19);
  });
});
