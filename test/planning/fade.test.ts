import { describe, expect, it } from "vitest";
import { createRandom } from "../../src/numeric/probability/random.js";
import { fadedGrams } from "../../src/planning/fade/fadeModel.js";
import { fadeResiduals } from "../../src/planning/fade/fadeResiduals.js";
import { fitFade } from "../../src/planning/fade/fitFade.js";
import { panelFade } from "../../src/planning/fade/panelFade.js";
import { paintReflectance } from "../../src/planning/holdBack/paintColours.js";
import type { PlanJob } from "../../src/planning/holdBack/planJob.js";
import { fadeModelOf, horseboxPlan } from "./horseboxPlan.js";

const job = horseboxPlan();

/** The example with panels that the model itself gives for known fractions: checks arithmetic, not truth. */
function withPanels(left: Readonly<Record<string, number>>, yellowing = 0): PlanJob {
  const { formula } = fadeModelOf(job, 1);
  const grams = formula.model.set.toners.map(({ id }, j) => formula.grams[j] * (left[id] ?? 1));
  const reflectance = Array.from(
    paintReflectance(formula.model, grams, (b) => yellowing * Math.exp((-10 * b) / 40)),
  );
  const [panel] = job.panels;
  const readings = panel.readings.map((reading) => ({ ...reading, reflectance }));
  return { ...job, formulas: [job.formulas[1]], panels: [{ ...panel, readings }] };
}

describe("the fade fit", () => {
  it("has the slopes of its residuals (central differences)", () => {
    const problem = fadeResiduals(fadeModelOf(job));
    const random = createRandom(3);
    const z = Float64Array.from(problem.start, () => 0.4 * random.normal());
    const count = z.length;
    const jacobian = new Float64Array(problem.residualCount * count);
    problem.jacobian(z, jacobian);
    const [low, high] = [-1, 1].map((sign) => (n: number) => {
      const out = new Float64Array(problem.residualCount);
      problem.residuals(
        z.map((value, i) => (i === n ? value + sign * 1e-5 : value)),
        out,
      );
      return out;
    });
    for (let n = 0; n < count; n++) {
      const [below, above] = [low(n), high(n)];
      for (let r = 0; r < problem.residualCount; r++) {
        const slope = (above[r] - below[r]) / 2e-5;
        expect(Math.abs(jacobian[r * count + n] - slope)).toBeLessThan(1e-5 * Math.max(1, Math.abs(slope)));
      }
    }
  });

  it("starts where nothing is known: the likeliest fade before any reading is the median of the prior", () => {
    const model = fadeModelOf(job);
    const grams = fadedGrams(model, new Float64Array(model.unknowns.count), 0);
    model.toners.forEach((j, i) => {
      expect(grams[j]).toBeCloseTo(model.formula.grams[j] * Math.exp(-model.medianLoss[i]), 9);
    });
  });

  it("finds fractions known exactly once noise and priors are made small against the readings", () => {
    const left = { yellow: 0.7, blue: 0.85 };
    const loose = { meanLoss: 0.2, sdLoss: 0.2 };
    const exact = withPanels(left);
    const fit = fitFade(
      fadeModelOf({
        ...exact,
        fadePriors: { ...exact.fadePriors, yellow: loose, blue: loose },
        options: {
          reflectanceSd: 1e-5,
          bandSd: 1e-3,
          smoothSd: 1e-3,
          batchSd: 1e-3,
          tonerSd: 1e-3,
          unevenSd: 2,
          doseSd: 2,
          yellowingSd: 1e-3,
        },
      }),
    );
    expect(fit.converged).toBe(true);
    for (const { toner, fraction } of panelFade(fit, 0).remaining) {
      expect(Math.abs(fraction - ((left as Record<string, number>)[toner] ?? 1))).toBeLessThan(0.02);
    }
  });

  it("tells yellowing from the fading of a yellow toner", () => {
    const yellowed = panelFade(fitFade(fadeModelOf(withPanels({ yellow: 0.8 }, 0.05))), 0);
    const plain = panelFade(fitFade(fadeModelOf(withPanels({ yellow: 0.8 }))), 0);
    expect(yellowed.yellowing).toBeGreaterThan(0.03);
    expect(plain.yellowing).toBeLessThan(0.015);
  });

  it("does not hide a panel that shows far more of a toner than the formula has", () => {
    const panels = { ...withPanels({ blue: 1.6 }), options: { smoothSd: 0.02 } };
    const { remaining } = panelFade(fitFade(fadeModelOf(panels)), 0);
    const blue = remaining.find(({ toner }) => toner === "blue");
    expect(blue?.fraction).toBeGreaterThan(1.15);
    expect(blue?.low).toBeGreaterThan(1);
  });

  it("takes a toner that may be off its model for less certainly left, and finds nearer to what was expected of it", () => {
    const job = withPanels({ blue: 1.3 });
    const blue = (tonerSd: number) => {
      const { remaining } = panelFade(
        fitFade(fadeModelOf({ ...job, options: { tonerSd, smoothSd: 0.02 } })),
        0,
      );
      const { fraction, low, high } = remaining.find(({ toner }) => toner === "blue") ?? remaining[0];
      return { fraction, width: Math.log(high / low) };
    };
    const [trusted, doubted] = [blue(1e-3), blue(0.1)];
    expect(doubted.width).toBeGreaterThan(1.2 * trusted.width);
    expect(doubted.fraction).toBeLessThan(trusted.fraction);
    expect(doubted.fraction).toBeGreaterThan(1);
  });
});
