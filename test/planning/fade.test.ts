import { describe, expect, it } from "vitest";
import { filmResponse, filmSlopes } from "../../src/belief/filmResponse.js";
import { halfNormal } from "../../src/belief/halfNormal.js";
import { createWork } from "../../src/core/createWork.js";
import { normalProbability } from "../../src/numeric/probability/normalProbability.js";
import { createRandom } from "../../src/numeric/probability/random.js";
import { fadingOf } from "../../src/planning/fade/fading.js";
import { panelFade } from "../../src/planning/fade/panelFade.js";
import { drawRecipes } from "../../src/planning/holdBack/drawRecipes.js";
import { paintReflectance } from "../../src/planning/holdBack/paintColours.js";
import { checkPlanJob, type PlanJob } from "../../src/planning/holdBack/planJob.js";
import { preparePlan } from "../../src/planning/holdBack/planProblem.js";
import { fadeFitOf, horseboxPlan } from "./horseboxPlan.js";

const job = horseboxPlan();

/** The example with panels that the model itself gives for known fractions: checks arithmetic, not truth. */
function withPanels(left: Readonly<Record<string, number>>, yellowing = 0): PlanJob {
  const { model, formulas } = preparePlan(checkPlanJob(job));
  const grams = model.set.toners.map(({ id }, j) => formulas[1].grams[j] * (left[id] ?? 1));
  const reflectance = Array.from(paintReflectance(model, grams, (b) => yellowing * Math.exp((-10 * b) / 40)));
  const [panel] = job.panels;
  const readings = panel.readings.map((reading) => ({ ...reading, reflectance }));
  const { readings: _, ...formula } = job.formulas[1];
  return { ...job, formulas: [formula], panels: [{ ...panel, readings }] };
}

const leftOf = (job: PlanJob, id: string) => {
  const { remaining } = panelFade(fadeFitOf(job), 0);
  const found = remaining.find(({ toner }) => toner === id);
  if (!found) throw new Error(`no ${id}`);
  return found;
};

describe("the fade fit", () => {
  it("has the slopes of what light does to a panel (central differences)", () => {
    const { belief } = fadeFitOf(job);
    const { model, strengths, unknowns, films } = belief.scope;
    const film = films[films.length - 1];
    const ofPanel = [...unknowns.keys()].filter((x) =>
      unknowns[x].effects.some(({ field }) => field === "loss" || field === "yellow"),
    );
    const random = createRandom(3);
    const u = unknowns.map(() => 0.4 * random.normal());
    const size = model.coefficients.size;
    const seenAt = (x: number, by: number) => {
      const world = { unknowns, u: u.map((value, y) => (y === x ? value + by : value)) };
      return filmResponse(model, strengths, world, film).reflectance;
    };
    const response = filmResponse(model, strengths, { unknowns, u }, film);
    expect(ofPanel.length).toBeGreaterThan(5);
    for (const x of ofPanel) {
      const slopes = filmSlopes(response, [unknowns[x]], film);
      const [below, above] = [seenAt(x, -1e-5), seenAt(x, 1e-5)];
      for (let b = 0; b < size; b++) {
        expect(Math.abs(slopes[b] - (above[b] - below[b]) / 2e-5)).toBeLessThan(1e-8);
      }
    }
  });

  it("starts where nothing is known: the likeliest fade before any reading is the median of the prior", () => {
    const fit = fadeFitOf(job);
    const nothing = fit.belief.scope.unknowns.map(() => 0);
    const grams = fadingOf(fit, 0).grams(nothing);
    const median = fit.belief.panels[0].light?.medianLoss ?? [];
    for (const j of fit.toners) {
      expect(grams[j]).toBeCloseTo(fit.formula.grams[j] * Math.exp(-median[j]), 9);
    }
  });

  it("finds fractions known exactly once noise and priors are made small against the readings", () => {
    const left = { yellow: 0.7, blue: 0.85 };
    const loose = { meanLoss: 0.2, sdLoss: 0.2 };
    const exact = withPanels(left);
    const fit = fadeFitOf({
      ...exact,
      fadePriors: { ...exact.fadePriors, yellow: loose, blue: loose },
      belief: {
        tonerCurveSd: 1e-3,
        tonerScatteringSd: 1e-3,
        k2Sd: 1e-3,
        k2RiseSd: 1e-3,
        readingSd: 1e-4,
      },
      options: { curveSd: 1e-3, batchSd: 1e-3, unevenSd: 2, doseSd: 2, yellowingSd: 1e-3 },
    });
    expect(fit.belief.posterior.converged).toBe(true);
    for (const { toner, fraction } of panelFade(fit, 0).remaining) {
      expect(Math.abs(fraction - ((left as Record<string, number>)[toner] ?? 1))).toBeLessThan(0.02);
    }
  });

  it("tells yellowing from the fading of a yellow toner", () => {
    const yellowed = panelFade(fadeFitOf(withPanels({ yellow: 0.8 }, 0.05)), 0);
    const plain = panelFade(fadeFitOf(withPanels({ yellow: 0.8 })), 0);
    expect(plain.yellowing).toBeLessThan(0.6 * yellowed.yellowing);
    expect(yellowed.yellowing + 1.645 * yellowed.yellowingSd).toBeGreaterThan(0.05);
    expect(yellowed.yellowing).toBeGreaterThan(0.02);
  });

  it("does not hide a panel that shows far more of a toner than the formula has", () => {
    const { fraction, low } = leftOf({ ...withPanels({ blue: 1.6 }), options: { curveSd: 0.02 } }, "blue");
    expect(fraction).toBeGreaterThan(1.15);
    expect(low).toBeGreaterThan(1);
  });

  it("takes a toner that may be off its model for less certainly left, and finds nearer to what was expected of it", () => {
    const { toners: set, ...seen } = withPanels({ blue: 1.3 });
    const toners = { ...set, toners: set.toners.map(({ misfit: _, ...toner }) => toner) };
    const blue = (tonerSd: number) => {
      const belief = { tonerCurveSd: tonerSd, tonerScatteringSd: tonerSd };
      const { fraction, low, high } = leftOf({ ...seen, toners, belief, options: { curveSd: 0.02 } }, "blue");
      return { fraction, width: Math.log(high / low) };
    };
    const [trusted, doubted] = [blue(1e-3), blue(0.15)];
    expect(doubted.width).toBeGreaterThan(1.2 * trusted.width);
    expect(doubted.fraction).toBeLessThan(trusted.fraction);
    expect(doubted.fraction).toBeGreaterThan(1);
  });

  it("draws worlds with the spread that it states", () => {
    const fit = fadeFitOf(job);
    const { remaining } = panelFade(fit, 0);
    const toners = fit.formula.grams.length;
    const cans = { covariance: new Float64Array(toners * toners) };
    const nothing = fit.belief.panels.map(() => new Float64Array(toners));
    const draws = drawRecipes(fit, cans, nothing, {
      draws: 4000,
      seed: 5,
      work: createWork(Number.POSITIVE_INFINITY),
    });
    const place = remaining.findIndex(({ toner }) => toner === "ochre");
    const ochre = fit.toners[place];
    const logs = draws
      .map(({ recipes }) => Math.log(recipes[0][ochre] / fit.formula.grams[ochre]))
      .sort((a, b) => a - b);
    const { low, high } = remaining[place];
    expect((logs[3800] - logs[200]) / Math.log(high / low)).toBeCloseTo(1, 1);
  });
});

describe("halfNormal", () => {
  it("is half normal where its argument is normal: the quantiles of |z| at those of z", () => {
    expect(halfNormal(0)).toBeCloseTo(0.6744897501960817, 10);
    // P(|z| ≤ h(1)) = Φ(1) = 0.8413447460685429 (standard normal table), so Φ(h(1)) = 0.92067.
    expect(normalProbability(halfNormal(1))).toBeCloseTo(0.92067237, 7);
    expect(halfNormal(-3)).toBeGreaterThan(0);
    expect(halfNormal(-3)).toBeLessThan(0.002);
  });
});
