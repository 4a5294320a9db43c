import { createRandom } from "../numeric/random.js";
import { correlatedNormal } from "./correlatedNormal.js";
import { fadedGrams } from "./fadeModel.js";
import type { FadeFit } from "./fitFade.js";
import { strengthSds } from "./strengthSds.js";

/** One world that the readings allow: the cans' strength ÷ what is said of it, and each panel's recipe from them. */
export interface RecipeDraw {
  readonly strengths: Float64Array;
  /** Grams of every toner by panel, all from the same formula's worth of paint. */
  readonly recipes: readonly Float64Array[];
}

/**
 * Worlds drawn from the posterior of a fit, taken for normal. A recipe is (faded formula + what imitates the
 * yellowing) ÷ strength, the can's ln strength being normal with its own sd.
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
  return Array.from({ length: draws }, () => {
    const drawn = correlatedNormal(lower, count, random).map((step, n) => z[n] + step);
    const strengths = sds.map((sd) => Math.exp(sd * random.normal()));
    return {
      strengths,
      recipes: imitation.map((more, p) =>
        fadedGrams(model, drawn, p).map((grams, j) => (grams + more[j]) / strengths[j]),
      ),
    };
  });
}
