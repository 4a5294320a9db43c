import { expect, it } from "vitest";
import { createRandom } from "../../src/numeric/random.js";
import { LEARNING_DEFAULTS } from "../../src/planning/learning/learningOptions.js";
import { createPotResiduals } from "../../src/planning/learning/potResiduals.js";
import { preparePot } from "../../src/planning/learning/preparePot.js";
import { predict } from "../../src/prediction/predict.js";
import { horseboxToners } from "../fixtures/horsebox.js";

const toners = horseboxToners();
const viewing = { observer: "1964-10", illuminants: [{ name: "D65" }] } as const;
const pots = [
  { white: 60, green: 25, ochre: 12 },
  { white: 90, green: 31, ochre: 12 },
];

it("its slopes are those of its residuals, for every unknown", () => {
  const cards = pots.map((pot, c) => ({
    name: `card ${c}`,
    pot,
    readings: predict({ toners, viewing, pot }).readings,
  }));
  const options = LEARNING_DEFAULTS;
  const { model, card } = preparePot({ name: "pot", cards }, "pot", toners, options);
  const count = toners.toners.length;
  const covariance = Float64Array.from({ length: count * count }, (_, i) =>
    i % (count + 1) === 0 ? 0.04 : 0.01,
  );
  const before = card(0).grams;
  const misPoured = { ...card(1, before), misPour: { toner: 1, poured: 6, sd: 0.5 } };
  const { unknownCount, residualCount, evaluate } = createPotResiduals(
    model,
    { mean: new Float64Array(count), covariance },
    [card(0), misPoured],
  );
  const random = createRandom(3);
  const u = Float64Array.from({ length: unknownCount }, () => 0.3 * random.normal());
  const jacobian = new Float64Array(residualCount * unknownCount);
  evaluate(u, new Float64Array(residualCount), jacobian);
  const step = 1e-4;
  const at = (j: number, by: number) => {
    const residual = new Float64Array(residualCount);
    evaluate(
      u.map((value, i) => value + (i === j ? by : 0)),
      residual,
    );
    return residual;
  };
  for (let j = 0; j < unknownCount; j++) {
    const [low, high] = [at(j, -step), at(j, step)];
    for (let i = 0; i < residualCount; i++) {
      const slope = (high[i] - low[i]) / (2 * step);
      expect(Math.abs(jacobian[i * unknownCount + j] - slope)).toBeLessThan(1e-4 * (1 + Math.abs(slope)));
    }
  }
});
