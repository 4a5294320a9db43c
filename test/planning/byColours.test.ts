import { describe, expect, it } from "vitest";
import { planHoldBack } from "../../src/planning/holdBack/planHoldBack.js";
import { learnStrengths } from "../../src/planning/learning/learnStrengths.js";
import { tonerDirections } from "../../src/prediction/tonerDirections.js";
import { colourOf } from "../fixtures/colourOf.js";
import { horseboxJob, horseboxToners } from "../fixtures/horsebox.js";
import { horseboxPlan } from "./horseboxPlan.js";

const job = horseboxJob();

describe("where a colorimeter stands in the place of a spectrophotometer", () => {
  it("directions start from the colour that it gave, and go nearly where spectra say", () => {
    const { card, ...mix } = job;
    const colours = card.readings.map((one) => colourOf(one));
    const byColour = tonerDirections({ ...mix, card: { readings: [], colours } });
    const bySpectrum = tonerDirections(job);
    byColour.colours[0].lab.forEach((value, axis) => {
      expect(Math.abs(value - colours[0].lab[axis])).toBeLessThan(0.6);
    });
    byColour.directions.forEach(({ perCent: [move] }, j) => {
      const [expected] = bySpectrum.directions[j].perCent;
      const apart = move.deltaLab.map((value, axis) => value - expected.deltaLab[axis]);
      expect(Math.hypot(...apart)).toBeLessThan(0.15 * expected.deltaE00 + 0.05);
    });
  });

  it("a card teaches the strength of cans, less than a spectrum does", () => {
    const toners = horseboxToners();
    const learnt = (card: object) =>
      learnStrengths({
        toners,
        pots: [{ name: "pot", cards: [{ name: "c", pot: job.pot, ...card }] }],
      } as never);
    const [byColour] = learnt({ colours: job.card.readings.map((one) => colourOf(one)) }).cards;
    const [bySpectrum] = learnt({ readings: job.card.readings }).cards;
    expect(byColour.verdict).toBe("believed");
    const sds = ({ beliefs }: typeof byColour) => beliefs.map(({ sd }) => sd);
    const [wide, narrow] = [sds(byColour), sds(bySpectrum)];
    expect(byColour.beliefs.some(({ sd, sdBefore }) => sd < 0.98 * sdBefore)).toBe(true);
    wide.forEach((sd, j) => {
      expect(sd).toBeGreaterThanOrEqual(narrow[j] - 1e-9);
    });
    expect(() => learnt({})).toThrow(/cards\[0\]\.readings.*\[missing\]/);
  });

  it("a plan for panels of which only colours are known is near the one from spectra", () => {
    const plan = horseboxPlan();
    const bySpectrum = planHoldBack(plan);
    const panels = plan.panels.map(({ readings, ...panel }) => ({
      ...panel,
      readings: [],
      colours: readings.flatMap((one) => [colourOf(one), colourOf(one, { illuminant: "A" })]),
    }));
    const byColour = planHoldBack({ ...plan, panels });
    expect(byColour.formula).toBe(bySpectrum.formula);
    byColour.panels.forEach(({ explained, recipe }, p) => {
      const expected = bySpectrum.panels[p];
      expect(explained).toBe(expected.explained);
      const total = Object.values(expected.recipe).reduce((sum, grams) => sum + grams, 0);
      for (const [toner, grams] of Object.entries(expected.recipe)) {
        expect(Math.abs((recipe[toner] ?? 0) - grams)).toBeLessThan(0.03 * total);
      }
    });
  });
});
