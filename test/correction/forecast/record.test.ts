import { Ajv2020 as Ajv } from "ajv/dist/2020.js";
import { describe, expect, it } from "vitest";
import correctionSchema from "../../../docs/schemas/correction.json" with { type: "json" };
import { correct } from "../../../src/correction/correct.js";
import type { Job } from "../../../src/problem/job.js";
import { correctionText } from "../../../src/report/correction/correctionText.js";
import { horseboxJob } from "../../fixtures/horsebox.js";

const job = horseboxJob();
const flat = (value: number) =>
  [
    { geometry: "d:8 specular excluded", grid: job.toners.grid, reflectance: new Array(31).fill(value) },
  ] as const;
const none = Object.fromEntries(job.toners.toners.map(({ id }) => [id, 0]));
const noScattering = {
  ...job.toners.toners[0],
  id: "dye",
  s: { "d:8 specular excluded": new Array(31).fill(0) },
};

const JOBS: Readonly<Record<string, Partial<Job>>> = {
  "the example": {},
  "a match already": { targets: [{ name: "card", readings: job.card.readings }] },
  "far too light": { targets: [{ name: "panel", readings: flat(0.97) }] },
  "black beyond black": { targets: [{ name: "panel", readings: flat(0.001) }] },
  "a white card": { card: { readings: flat(0.99) } },
  "empty stock": { limits: { stockGrams: none } },
  "a full cup": { limits: { potMaxGrams: 200 } },
  "a scale without steps": { limits: { scaleStepGrams: 0 } },
  "a scale of whole grams, one pour": { limits: { scaleStepGrams: 1, maxPours: 1 } },
  "a light of no weight": {
    viewing: { observer: "1931-2", illuminants: [{ name: "F11" }, { name: "A", weight: 0 }] },
  },
  "a single toner": {
    toners: { ...job.toners, toners: job.toners.toners.filter(({ id }) => id === "white") },
    pot: { white: 100 },
    limits: {},
  },
  "twins, and a toner that does not scatter": {
    toners: {
      ...job.toners,
      toners: [...job.toners.toners, { ...job.toners.toners[4], id: "twin" }, noScattering],
    },
  },
  "cans that may be anything": {
    toners: { ...job.toners, toners: job.toners.toners.map((toner) => ({ ...toner, strengthSd: 3 })) },
  },
};

describe("the record of a forecast", () => {
  const fits = new Ajv({ strict: true, allowUnionTypes: true }).compile(correctionSchema);

  it.each(Object.entries(JOBS))("fits its schema and can be put into words: %s", (_, change) => {
    const forecast = { draws: 60, drawsOfReturn: 10 };
    const correction = correct({ ...job, ...change }, { alternatives: false, wayOut: false, forecast });
    expect(correction.forecast === undefined).toBe(correction.status === "undetermined");
    expect(fits(JSON.parse(JSON.stringify(correction))), JSON.stringify(fits.errors)).toBe(true);
    expect(correctionText(correction)).not.toMatch(/NaN|undefined|Infinity/);
    if (!correction.forecast) return;
    const { pours, full } = correction.forecast;
    expect(pours.map(({ toner }) => toner)).toEqual(correction.additions.map(({ toner }) => toner));
    for (const { lab, labLow, labHigh, deltaE00 } of full.cards) {
      lab.forEach((value, axis) => {
        expect(labLow[axis]).toBeLessThanOrEqual(value);
        expect(labHigh[axis]).toBeGreaterThanOrEqual(value);
      });
      expect(deltaE00.low).toBeLessThanOrEqual(deltaE00.high);
    }
  });
});
