import { createRandom } from "../../numeric/probability/random.js";
import { fadedGrams } from "../fade/fadeModel.js";
import type { FadeFit } from "../fade/fitFade.js";
import { correlatedNormal } from "./correlatedNormal.js";
import { strengthSds } from "./strengthSds.js";

/** One world that the readings allow: the cans' strength ÷ what is said of it, and each panel's recipe from them. */
export interface RecipeDraw {
  readonly strengths: Float64Array;
  /** Grams of every toner by panel, all from the same formula's worth of paint. */
  readonly recipes: readonly Float64Array[];
}

/**
 * Worlds drawn from the posterior of a fit, taken for normal. A recipe is (faded formula + what imitates the
 * yellowing) ÷ strength, the can's ln strength being normal with its own sd. Drawn in pairs mirrored about the
 * likeliest world, which steadies their shares.
 */
export function drawRecipes(
  fit: FadeFit,
  imitation: readonly Float64Array[],
  { draws, seed }: { readonly draws: number; readonly seed: number },
): readonly RecipeDraw[] {
  const { model, z, lower } = fit;
  const sds = strengthSds(model.formula.model);
  const count = z.length;
  const random = createRandom(seed);
  const world = (step: Float64Array, strengthSteps: Float64Array, sign: 1 | -1): RecipeDraw => {
    const drawn = step.map((value, n) => z[n] + sign * value);
    const strengths = strengthSteps.map((value) => Math.exp(sign * value));
    return {
      strengths,
      recipes: imitation.map((more, p) =>
        fadedGrams(model, drawn, p).map((grams, j) => (grams + more[j]) / strengths[j]),
      ),
    };
  };
  const pairs = Array.from({ length: Math.ceil(draws / 2) }, () => {
    const step = correlatedNormal(lower, count, random);
    const strengthSteps = sds.map((sd) => sd * random.normal());
    return [world(step, strengthSteps, 1), world(step, strengthSteps, -1)];
  });
  return pairs.flat().slice(0, draws);
}
