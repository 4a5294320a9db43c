import { describe, expect, it } from "vitest";
import { BELIEF_SIZES } from "../../src/belief/beliefSizes.js";
import { characterise } from "../../src/characterisation/characterise.js";
import { correct } from "../../src/correction/correct.js";
import { createForwardModel } from "../../src/forward/forwardModel.js";
import { createRandom } from "../../src/numeric/probability/random.js";
import { hides } from "../../src/problem/spray/hides.js";
import { type Grams, gramsInOrder } from "../../src/toners/pot.js";
import { createInstrument } from "../simulator/instrument.js";
import { ANGLES } from "./directions.js";
import { anotherPaint, drawFormula, drawStrengths, unknownGrade } from "./effectJobs.js";
import { createEffectReader, EFFECT_PHYSICS } from "./effectPaint.js";
import { characterisationJob, readAngles } from "./effectShop.js";

const viewing = { observer: "1964-10", illuminants: [{ name: "D65" }] } as const;
const STEP = 0.16;

describe("toners characterised in a world of other physics", () => {
  const read = createEffectReader();
  const { toners } = characterise(characterisationJob(read, createRandom(9)));

  it("know how their flakes lie, and where a face is brighter than white", () => {
    const effects = toners.toners.filter(({ role }) => role === "flake" || role === "pearl");
    expect(effects.length).toBeGreaterThan(2);
    for (const { orientation } of effects) expect(orientation).toBeDefined();
    expect(Math.max(...toners.surfaces.map(({ brightness = 1 }) => brightness))).toBeGreaterThan(1);
  });

  it("say of a pot that it hides where films over black and white look alike, and of none where they do not", () => {
    const model = createForwardModel(toners, viewing, ANGLES);
    const [overBlack, overWhite] = [0.02, 0.8].map((ground) =>
      createEffectReader({ ...EFFECT_PHYSICS, ground }),
    );
    /** Least ratio, over all angles, of what films over black and over white send back at 550 nm. */
    const contrast = (grams: Grams) =>
      Math.min(
        ...ANGLES.map(
          (angle) =>
            overBlack({ grams }, { tilt: 0 })[angle][15] / overWhite({ grams }, { tilt: 0 })[angle][15],
        ),
      );
    const said = (grams: Grams) =>
      hides(model, gramsInOrder(grams, toners.toners), BELIEF_SIZES.filmScattering);
    const hiding = [803, 804, 805, 806, 807, 808].map((seed) => drawFormula(createRandom(seed)));
    const thin: readonly Grams[] = [
      { "blue-pearl": 100 },
      { "gold-pearl": 99, black: 1 },
      { "blue-pearl": 95, red: 5 },
      { "blue-pearl": 90, white: 10 },
      { "gold-pearl": 90, "coarse-silver": 10 },
      { "gold-pearl": 10, yellow: 90 },
    ];
    for (const grams of hiding) expect([said(grams), contrast(grams) > 0.98]).toEqual([true, true]);
    for (const grams of thin) expect([said(grams), contrast(grams) > 0.98]).toEqual([false, false]);
  });

  it("tell another spraying by its sign in pots that hide, and never ask for it where there was none", () => {
    const told = { right: 0, wrong: 0, falsely: 0, hiding: 0 };
    for (let seed = 800; seed < 808; seed++) {
      const random = createRandom(seed);
      const pot = drawFormula(random);
      const strengths = drawStrengths(random);
      const instrument = createInstrument(random);
      const film = (tilt: number) => readAngles(read({ grams: pot, strengths }, { tilt }), instrument);
      const ask = (tilt: number) =>
        correct({
          toners,
          viewing,
          pot,
          cards: [{ pot, readings: film(0) }],
          targets: [{ name: "panel", readings: film(tilt) }],
        });
      const tilt = seed % 2 === 0 ? STEP : -STEP;
      const turned = ask(tilt);
      if (turned.spray?.verdict === "not-hiding") continue;
      told.hiding++;
      if (turned.status === "respray" && Math.sign(turned.spray?.tilt ?? 0) === Math.sign(tilt)) told.right++;
      else told.wrong++;
      if (ask(0).status === "respray") told.falsely++;
    }
    expect(told.hiding).toBeGreaterThan(0);
    expect({ wrong: told.wrong, falsely: told.falsely }).toEqual({ wrong: 0, falsely: 0 });
  });

  it("answer from several cards of six angles within the usual work", () => {
    const pot = { "coarse-silver": 60, black: 6, blue: 10 };
    const instrument = createInstrument(createRandom(4));
    const film = (tilt: number, grams: Grams = pot) => readAngles(read({ grams }, { tilt }), instrument);
    const cards = [0, -0.15, -0.13].map((tilt) => ({ pot, readings: film(tilt) }));
    const targets = [{ name: "panel", readings: film(-0.15, { ...pot, blue: 13 }) }];
    const answer = correct({ toners, viewing, pot, cards, targets });
    expect(answer.card.verdict).toBe("believed");
    expect(answer.additions.map(({ toner }) => toner)).toContain("blue");
  });

  it("leave a panel of other paint to grams, and give none at once for a grade of flake that they do not know", () => {
    const told = { hiding: 0, resprayed: 0, grades: 0, poured: 0 };
    for (let seed = 820; seed < 828; seed++) {
      const random = createRandom(seed);
      const pot = drawFormula(random);
      const strengths = drawStrengths(random);
      const grades = unknownGrade(pot, random);
      const instrument = createInstrument(random);
      const card = readAngles(read({ grams: pot, strengths }, { tilt: 0 }), instrument);
      const ask = (panel: typeof card) =>
        correct({
          toners,
          viewing,
          pot,
          cards: [{ pot, readings: card }],
          targets: [{ name: "panel", readings: panel }],
        });
      const other = ask(readAngles(read({ grams: anotherPaint(pot, random) }, { tilt: 0 }), instrument));
      if (other.spray?.verdict === "not-hiding") continue;
      told.hiding++;
      if (other.status === "respray") told.resprayed++;
      if (!grades) continue;
      const graded = ask(readAngles(read({ grams: pot, strengths, grades }, { tilt: 0 }), instrument));
      told.grades++;
      if (graded.additions.length > 0) told.poured++;
    }
    expect(told.hiding).toBeGreaterThan(0);
    expect({ resprayed: told.resprayed, poured: told.poured }).toEqual({ resprayed: 0, poured: 0 });
  });
});
