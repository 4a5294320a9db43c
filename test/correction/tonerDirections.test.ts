import Ajv from "ajv/dist/2020.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import directionsSchema from "../../docs/schemas/directions.json";
import type { Lab } from "../../src/colorimetry/lab.js";
import { colourStep } from "../../src/prediction/colourStep.js";
import { type Mix, predict } from "../../src/prediction/predict.js";
import { tonerDirections } from "../../src/prediction/tonerDirections.js";
import { pots } from "../fixtures/arbitraries.js";
import { horseboxJob } from "../fixtures/horsebox.js";
import { refusal } from "../support/refusal.js";

const job = horseboxJob();
const flat = (value: number) => new Array<number>(31).fill(value);
const toner = (id: string, k: number, s: number) => ({
  id,
  k: { "45:0": flat(k) },
  s: { "45:0": flat(s) },
});

/** Flat spectra and no surface, so that every number can be had with pencil and paper. */
const greys: Mix = {
  toners: {
    grid: { start: 400, step: 10, count: 31 },
    surfaces: [{ geometry: "45:0", k1: 0, k2: 0 }],
    toners: [toner("white", 0, 1), toner("black", 1, 0), toner("weak black", 0.1, 0), toner("clear", 0, 0)],
  },
  viewing: { observer: "1964-10", illuminants: [{ name: "D65" }, { name: "A" }] },
  pot: { white: 80, black: 20 },
};

describe("colourStep", () => {
  it("turns by the shorter way and gives 0 to a neutral (by hand)", () => {
    const polar = (degrees: number): Lab => {
      const turn = (degrees * Math.PI) / 180;
      return [50, 20 * Math.cos(turn), 20 * Math.sin(turn)];
    };
    expect(colourStep(polar(350), polar(10)).deltaHue).toBeCloseTo(20, 10);
    expect(colourStep(polar(10), polar(350)).deltaHue).toBeCloseTo(-20, 10);
    expect(colourStep([50, 0, 0], polar(10)).deltaHue).toBe(0);
    expect(Math.abs(colourStep(polar(10), [40, 0, 0]).deltaHue)).toBe(0);
    expect(colourStep([50, 0, 0], polar(10)).deltaChroma).toBeCloseTo(20, 10);
  });
});

describe("tonerDirections", () => {
  it("gives what pencil and paper give for flat greys (computed by hand)", () => {
    // Before: K/S = ¼, R = ½. One per cent (1 g) of black: K/S = 21/80; of white: 20/81.
    const lightness = (q: number) => 116 * Math.cbrt(1 + q - Math.sqrt(q * q + 2 * q)) - 16;
    const { directions, potGrams, isAnchored } = tonerDirections(greys);
    expect({ potGrams, isAnchored }).toEqual({ potGrams: 100, isAnchored: false });
    const [white, black, weak, clear] = directions;
    for (const move of ["perGram", "perCent"] as const) {
      expect(white[move][1].deltaLab[0]).toBeCloseTo(lightness(20 / 81) - lightness(1 / 4), 9);
      expect(black[move][0].deltaLab[0]).toBeCloseTo(lightness(21 / 80) - lightness(1 / 4), 9);
    }
    expect(clear).toMatchObject({ deltaE00PerGram: 0, alike: [] });
    expect(black.alike[0].toner).toBe("weak black");
    expect(black.alike[0].cosine).toBeCloseTo(1, 12);
    expect(black.deltaE00PerGram / weak.deltaE00PerGram).toBeCloseTo(10, 9);
    // White does the opposite, which is nothing alike.
    expect(white.alike).toEqual([]);
    for (const { deltaHue, deltaChroma } of directions.flatMap(({ perGram }) => perGram)) {
      expect(Number.isFinite(deltaHue)).toBe(true);
      expect(Math.abs(deltaChroma)).toBeLessThan(1e-9);
    }
  });

  it("starts from the card where there is one, at its geometries, and from the prediction where not", () => {
    const { card, ...mix } = job;
    const anchored = tonerDirections(job);
    const free = tonerDirections(mix);
    expect([anchored.isAnchored, free.isAnchored]).toEqual([true, false]);
    predict(mix).predictions.forEach(({ lab }, c) => {
      expect(free.colours[c].lab).toEqual(lab);
    });
    expect(anchored.colours.map(({ geometry }) => geometry)).toEqual(
      job.viewing.illuminants.map(() => card.readings[0].geometry),
    );
    expect(anchored.colours[0].lab[0]).not.toBeCloseTo(free.colours[0].lab[0], 1);
  });

  it("agrees with adding the gram to the pot and predicting, and the first gram with its slope", () => {
    fc.assert(
      fc.property(pots, ({ set, grams }) => {
        const pot = Object.fromEntries(set.toners.map(({ id }, j) => [id, grams[j]]));
        const viewing = {
          observer: "1964-10",
          illuminants: [{ name: "D65" }, { name: "F11", weight: 0.5 }],
        } as const;
        const { directions } = tonerDirections({ toners: set, viewing, pot });
        const before = predict({ toners: set, viewing, pot }).predictions;
        const { toner: first, perGram } = directions[0];
        const now = predict({ toners: set, viewing, pot: { ...pot, [first]: pot[first] + 1 } }).predictions;
        perGram.forEach(({ deltaLab }, c) => {
          deltaLab.forEach((delta, axis) => {
            expect(delta).toBeCloseTo(now[c].lab[axis] - before[c].lab[axis], 9);
          });
        });
      }),
      { numRuns: 30, seed: 3 },
    );
  });

  it("fits its schema, for the shipped example and for greys", () => {
    const isDirections = new Ajv({ strict: true }).compile(directionsSchema);
    for (const answer of [tonerDirections(job), tonerDirections(greys)]) {
      expect(isDirections(JSON.parse(JSON.stringify(answer))), JSON.stringify(isDirections.errors)).toBe(
        true,
      );
    }
  });

  it("refuses a pot that has no colour, and a card at geometries that the toners do not know", () => {
    expect(refusal(() => tonerDirections({ ...greys, pot: { clear: 10 } }))).toMatchObject({
      code: "no-pigment",
    });
    expect(refusal(() => tonerDirections({ ...job, pot: {} }))).toMatchObject({
      code: "no-pigment",
      path: "pot",
    });
    const elsewhere = job.card.readings.map((reading) => ({ ...reading, geometry: "45as110" as const }));
    expect(refusal(() => tonerDirections({ ...job, card: { readings: elsewhere } }))).toMatchObject({
      code: "unknown-geometry",
      path: "card.readings[0].geometry",
    });
  });
});
