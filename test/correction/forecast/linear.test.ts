import { describe, expect, it } from "vitest";
import { DOUBTS } from "../../../src/correction/forecast/doubts.js";
import { labSpread } from "../../../src/correction/forecast/labSpread.js";
import { nextCard, sprayedCard } from "../../../src/correction/forecast/nextCard.js";
import { strengthBelief } from "../../../src/correction/forecast/strengthBelief.js";
import { checkJob } from "../../../src/correction/job.js";
import { prepareProblem } from "../../../src/correction/problem.js";
import { createRandom } from "../../../src/numeric/random.js";
import { predict } from "../../../src/prediction/predict.js";
import { gramsInOrder } from "../../../src/toners/pot.js";
import { horseboxJob } from "../../fixtures/horsebox.js";

const job = horseboxJob();
const added = { yellow: 6, violet: 1, "weak-green": 20, black: 2 };

function prepared(strengthSd: number) {
  const toners = job.toners.toners.map((toner) => ({ ...toner, strengthSd }));
  const { problem } = prepareProblem(checkJob({ ...job, toners: { ...job.toners, toners } }));
  const sprayed = sprayedCard(problem);
  const additions = gramsInOrder(added, problem.model.set.toners);
  const used = Array.from(additions.keys()).filter((j) => additions[j] + sprayed.pot[j] > 0);
  return { sprayed, additions, belief: strengthBelief(sprayed.bare, { ...sprayed, used }, DOUBTS) };
}

describe("the spread to first order", () => {
  it.each([0.05, 0.2])("is that of exact worlds with strengths drawn (sd of ln %f), within a tenth", (sd) => {
    const { sprayed, additions, belief } = prepared(sd);
    const spread = labSpread(sprayed, belief, { additions, step: 0.1 }, DOUBTS).strength;
    const random = createRandom(11);
    const labs = Array.from({ length: 2000 }, () => {
      const lnStrength = Float64Array.from(belief.mean);
      for (const mode of belief.modes) {
        const z = random.normal();
        mode.forEach((value, j) => {
          lnStrength[j] += z * value;
        });
      }
      return nextCard(sprayed, { lnStrength }, additions).lab;
    });
    const width = labs[0].length;
    for (let i = 0; i < width; i++) {
      const mean = labs.reduce((sum, lab) => sum + lab[i], 0) / labs.length;
      const sampled = Math.sqrt(labs.reduce((sum, lab) => sum + (lab[i] - mean) ** 2, 0) / labs.length);
      expect(Math.sqrt(spread[i * width + i]) / sampled).toBeGreaterThan(0.9);
      expect(Math.sqrt(spread[i * width + i]) / sampled).toBeLessThan(1.1);
    }
  });
});

describe("what the card tells of the cans", () => {
  it("finds a strength that the card shows, and leaves a toner that is not in the pot as it was", () => {
    const { toners, viewing, pot } = job;
    const stronger = toners.toners.map((toner) =>
      toner.id === "green" ? { ...toner, strength: 1.25 } : toner,
    );
    const { readings } = predict({ toners: { ...toners, toners: stronger }, viewing, pot });
    const { problem } = prepareProblem(checkJob({ ...job, card: { readings } }));
    const sprayed = sprayedCard(problem);
    const ids = problem.model.set.toners.map(({ id }) => id);
    const used = Array.from(ids.keys());
    const { mean, modes } = strengthBelief(sprayed.bare, { ...sprayed, used }, DOUBTS);
    const sdOf = (id: string) => Math.hypot(...modes.map((mode) => mode[ids.indexOf(id)]));
    const relative = mean[ids.indexOf("green")] - mean[ids.indexOf("white")];
    expect(relative).toBeGreaterThan(0.5 * Math.log(1.25));
    expect(relative).toBeLessThan(1.2 * Math.log(1.25));
    expect(mean[ids.indexOf("violet")]).toBe(0);
    expect(sdOf("violet")).toBeCloseTo(0.15, 12);
    expect(sdOf("green")).toBeLessThan(0.13);
  });
});
