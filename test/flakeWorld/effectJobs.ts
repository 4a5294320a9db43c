import type { Random } from "../../src/numeric/probability/random.js";
import type { Grams } from "../../src/toners/pot.js";
import { EFFECT_TONERS, type GradeName } from "./effectToners.js";

/** A formula of effect paint that hides: one or two flakes or pearls, some black, one or two pigments. */
export function drawFormula(random: Random): Grams {
  const effects = EFFECT_TONERS.filter(({ grade }) => grade).map(({ id }) => id);
  const colours = EFFECT_TONERS.filter(({ role }) => role === "chromatic").map(({ id }) => id);
  const some = (ids: readonly string[]) => ids[random.integer(ids.length)];
  const first = some(effects);
  const second = random.uniform() < 0.4 ? some(effects) : first;
  const grams: Record<string, number> = { [first]: 60 };
  if (second !== first) grams[second] = 10 + 20 * random.uniform();
  grams.black = 4 + 16 * random.uniform();
  const count = 1 + random.integer(2);
  for (let i = 0; i < count; i++) grams[some(colours)] = 4 + 16 * random.uniform();
  return grams;
}

/** The panel's paint: every toner of the formula but the first by an ln sd, as another batch or another can would. */
export function anotherPaint(formula: Grams, random: Random, sd = 0.12): Grams {
  return Object.fromEntries(
    Object.entries(formula).map(([id, grams], i) => [
      id,
      i === 0 ? grams : grams * Math.exp(sd * random.normal()),
    ]),
  );
}

/** Strengths of the cans that the painter pours from. */
export function drawStrengths(random: Random, sd = 0.1): Grams {
  return Object.fromEntries(
    EFFECT_TONERS.map(({ id, grade }) => [id, Math.exp((grade ? 0.3 : 1) * sd * random.normal())]),
  );
}

/** A grade that no toner has, in the place of the first silver of a formula. */
export function unknownGrade(
  formula: Grams,
  random: Random,
): Readonly<Record<string, GradeName>> | undefined {
  const silver = Object.keys(formula).find((id) => id.endsWith("silver"));
  return silver === undefined
    ? undefined
    : { [silver]: random.uniform() < 0.5 ? "lens-silver" : "ground-silver" };
}
