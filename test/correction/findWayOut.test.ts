import { describe, expect, it } from "vitest";
import { correct } from "../../src/correction/correct.js";
import { predict } from "../../src/prediction/predict.js";
import type { Job } from "../../src/problem/job.js";
import type { Grams } from "../../src/toners/pot.js";
import { horseboxToners } from "../fixtures/horsebox.js";

const toners = horseboxToners();
const viewing = { observer: "1964-10", illuminants: [{ name: "D65" }] } as const;
const readingsOf = (pot: Grams) =>
  predict({ toners, viewing, pot }).readings.map(({ geometry, grid, reflectance }) => ({
    geometry,
    grid,
    reflectance,
  }));

/** A pot with too much black for its target, in a cup that is nearly full: the card agrees with the model exactly. */
function darkJob(limits: Job["limits"]): Job {
  const pot = { white: 150, ochre: 10, black: 6 };
  const wanted = { white: 150, ochre: 10, black: 2 };
  return {
    toners,
    viewing,
    pot,
    card: { readings: readingsOf(pot) },
    targets: [{ name: "panel", readings: readingsOf(wanted) }],
    ...(limits && { limits }),
  };
}

describe("the way out", () => {
  const limits = { potMaxGrams: 200, scaleStepGrams: 0.1, maxPours: 4 };
  const correction = correct(darkJob(limits));

  it("pours off no more than what one recipe shows to be enough, and what is then poured matches", () => {
    expect(correction.status).toBe("out-of-reach");
    const pourOff = correction.wayOut?.pourOff;
    if (!pourOff) throw new Error("nothing is poured off");
    // Reaching t from a pot b takes Σt·max(b/t) grams: with black as the one in excess, 162 · 6/2 = 486 g for the whole
    // pot, so no more than 200/486 of it may stay for exactly that recipe. Others in tolerance may let more stay.
    const enough = 1 - 200 / 486;
    expect(pourOff.share).toBeGreaterThan(0.3);
    expect(pourOff.share).toBeLessThanOrEqual(enough + 0.01);
    expect(pourOff.grams).toBeCloseTo(pourOff.share * 166, 6);
    expect(pourOff.then.isWithinTolerance).toBe(true);
    expect(pourOff.then.pours).toBeLessThanOrEqual(limits.maxPours);
    const kept = 166 - pourOff.grams;
    expect(kept + pourOff.then.grams).toBeLessThanOrEqual(200 + 1e-6);
  });

  it("gives the same colour when the poured-off pot is a job of its own, and less poured off does not", () => {
    const pourOff = correction.wayOut?.pourOff;
    if (!pourOff) throw new Error("nothing is poured off");
    const lessPot = (share: number): Job => {
      const { pot, ...rest } = darkJob(limits);
      return {
        ...rest,
        pot: Object.fromEntries(Object.entries(pot).map(([id, grams]) => [id, grams * (1 - share)])),
      };
    };
    expect(correct(lessPot(pourOff.share)).status).toBe("corrected");
    expect(correct(lessPot(pourOff.share - 0.05)).status).toBe("out-of-reach");
  });

  it("mixes a new pot of the grams that there are, in scale steps, within tolerance", () => {
    const newPot = correction.wayOut?.newPot;
    if (!newPot) throw new Error("no new pot");
    expect(newPot.isWithinTolerance).toBe(true);
    expect(newPot.grams).toBeGreaterThan(150);
    expect(newPot.grams).toBeLessThanOrEqual(166 + 1e-6);
    for (const grams of Object.values(newPot.recipe))
      expect(grams * 10).toBeCloseTo(Math.round(grams * 10), 6);
    const lab = predict({ toners, viewing, pot: newPot.recipe }).predictions[0].lab;
    const target = predict({ toners, viewing, pot: { white: 150, ochre: 10, black: 2 } }).predictions[0].lab;
    expect(Math.hypot(lab[0] - target[0], lab[1] - target[1], lab[2] - target[2])).toBeLessThan(1.5);
  });

  it("offers a new pot that is nearest, and nothing to pour off, where no mix of the toners is the colour", () => {
    const job = darkJob(limits);
    const strange = job.targets.map((target) => ({
      ...target,
      readings: target.readings.map((reading) => ({
        ...reading,
        reflectance: Array.from(
          reading.reflectance,
          (_, band) => (band % 2 === 0 ? 0.9 : 0.05) * (band < 15 ? 0.2 : 1),
        ),
      })),
    }));
    const { wayOut } = correct({ ...job, targets: strange });
    expect(wayOut?.pourOff).toBeNull();
    expect(wayOut?.newPot?.isWithinTolerance).toBe(false);
  });
});
