import { correct } from "../../../src/correction/correct.js";
import { createRandom } from "../../../src/numeric/probability/random.js";
import { predict } from "../../../src/prediction/predict.js";
import type { Grams } from "../../../src/toners/pot.js";
import type { TonerSet } from "../../../src/toners/tonerSet.js";

/**
 * Whether a panel made by adding up to four toners to a pot, in whole steps of the scale (any amounts with a step of 0), is
 * answered with a match. Card and panel are the model's own: the mix exists, and calling it out of reach is wrong.
 */
export function isAnswered(toners: TonerSet, seed: number, scaleStepGrams: number): boolean {
  const random = createRandom(seed);
  const colours = toners.toners.filter(({ s }) =>
    Object.values(s).every((values) => Math.min(...Array.from(values)) > 0),
  );
  const draw = () => colours[random.integer(colours.length)].id;
  const pot: Record<string, number> = { [draw()]: 50 + Math.round(100 * random.uniform()) };
  for (let i = random.integer(4); i > 0; i--) pot[draw()] = 1 + Math.round(20 * random.uniform());
  const potGrams = Object.values(pot).reduce((sum, grams) => sum + grams, 0);
  const panel: Record<string, number> = { ...pot };
  const added: Record<string, number> = {};
  for (let i = 1 + random.integer(4); i > 0; i--) {
    const grams = (random.uniform() * potGrams) / 12;
    const poured =
      scaleStepGrams > 0 ? Math.max(1, Math.round(grams / scaleStepGrams)) * scaleStepGrams : grams;
    const id = draw();
    added[id] = (added[id] ?? 0) + poured;
    panel[id] = (panel[id] ?? 0) + poured;
  }
  const viewing = {
    observer: "1964-10",
    illuminants: [{ name: "D65" }, { name: "A", weight: 0.3 }],
  } as const;
  const readings = (grams: Grams) =>
    predict({ toners, viewing, pot: grams }).readings.map(({ geometry, grid, reflectance }) => ({
      geometry,
      grid,
      reflectance,
    }));
  const { status } = correct(
    {
      toners,
      viewing,
      pot,
      card: { readings: readings(pot) },
      targets: [{ name: "panel", readings: readings(panel) }],
      limits: { scaleStepGrams, stockGrams: added, potMaxGrams: potGrams * 1.5 },
    },
    { alternatives: false, wayOut: false },
  );
  return status === "corrected" || status === "good-enough";
}
