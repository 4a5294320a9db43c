import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { correct } from "../../src/correction/correct.js";
import { readJob } from "../../src/formats/jobFile.js";
import { readToners } from "../../src/formats/tonersFile.js";
import { createEvaluation, evaluate } from "../../src/forward/evaluate.js";
import { createForwardModel } from "../../src/forward/forwardModel.js";
import { learnStrengths } from "../../src/planning/learning/learnStrengths.js";
import { predict } from "../../src/prediction/predict.js";
import { gramsInOrder } from "../../src/toners/pot.js";

const file = (name: string) =>
  readFileSync(new URL(`../../examples/starter-set/${name}`, import.meta.url), "utf8");
const toners = readToners(file("toners.json"));
const viewing = { observer: "1964-10", illuminants: [{ name: "D65" }] } as const;

/** What a shop's own paint of these toners reads: stronger or weaker, and another shade. */
function tintOf(id: string, factor: number) {
  const [geometry] = toners.surfaces.map((surface) => surface.geometry);
  const own = {
    ...toners,
    toners: toners.toners.map((toner) =>
      toner.id === id
        ? {
            ...toner,
            k: {
              ...toner.k,
              [geometry]: Array.from(
                toner.k[geometry] as ArrayLike<number>,
                (k, b) => factor * k * (0.8 + b / 75),
              ),
            },
          }
        : toner,
    ),
  };
  const model = createForwardModel(own, viewing, [geometry]);
  const at = createEvaluation(model);
  const pot = { white: 95, [id]: 5 };
  evaluate(model, gramsInOrder(pot, own.toners), at);
  return {
    name: "tint",
    pot,
    readings: [{ geometry, grid: toners.grid, reflectance: Array.from(at.reflectance) }],
  };
}

describe("the starter set", () => {
  it("is generic throughout, with a doubt of 0.3 and more in ln K", () => {
    for (const { provenance, misfit, strengthSd } of toners.toners) {
      expect({ provenance, strengthSd }).toEqual({ provenance: "generic", strengthSd: 0.3 });
      expect(0.08 * (misfit as number)).toBeGreaterThanOrEqual(0.3);
    }
    expect(file("NOTICE")).toMatch(/MIT License/);
  });

  it.each(["by-eye.json", "by-colorimeter.json"])("%s has an answer", (name) => {
    const job = readJob(
      file(name),
      () => toners,
      (other) => file(other),
    );
    const { status, additions } = correct(job);
    expect(status).toBe(name === "by-eye.json" ? "by-eye" : "corrected");
    expect(additions.length).toBeGreaterThan(0);
  });

  it("predicts no pot before a tint card was learnt from, and then nearly what the card showed", () => {
    const card = tintOf("blue", 1.3);
    const pot = { white: 90, blue: 10 };
    expect(() => predict({ toners, viewing, pot })).toThrow(/pot\.white: .*\[generic-toner\]/);
    const learning = learnStrengths({ toners, pots: [{ name: "tint", cards: [card] }] });
    expect(learning.cards[0].verdict).toBe("believed");
    const known = learning.toners;
    const provenances = Object.fromEntries(known.toners.map(({ id, provenance }) => [id, provenance]));
    expect(provenances).toMatchObject({ white: "tinted", blue: "tinted", green: "generic" });
    const [blue] = known.toners.filter(({ id }) => id === "blue");
    expect(blue.misfit).toBeLessThan(4);
    const [reading] = predict({ toners: known, viewing, pot: card.pot }).readings;
    const off = Array.from(reading.reflectance, (value, b) =>
      Math.abs(value - card.readings[0].reflectance[b]),
    );
    expect(Math.max(...off)).toBeLessThan(0.02);
    expect(() => predict({ toners: known, viewing, pot: { white: 90, green: 10 } })).toThrow(/pot\.green/);
  });
});
