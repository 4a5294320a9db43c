import { drawStep } from "../../belief/drawStep.js";
import type { Prior } from "../../belief/prior.js";
import type { Work } from "../../core/createWork.js";
import { lowerFactor } from "../../numeric/linear/lowerFactor.js";
import { createRandom } from "../../numeric/probability/random.js";
import { fadingOf } from "../fade/fading.js";
import type { FadeFit } from "../fade/fitFade.js";
import { correlatedNormal } from "./correlatedNormal.js";

/** One world that the readings allow: the cans' strength ÷ what is said of it, and each panel's recipe from them. */
export interface RecipeDraw {
  readonly strengths: Float64Array;
  /** Grams of every toner by panel, all from the same formula's worth of paint. */
  readonly recipes: readonly Float64Array[];
}

/** Of the work left, what draws may take; and the fewest that a probability can be told from. */
const DRAWN_SHARE = 0.5;
const LEAST_DRAWS = 200;

/**
 * Worlds drawn from what a fit believes of the panels and from what is believed of the `cans`. A recipe is (faded formula
 * + what imitates the yellowing) ÷ strength. Drawn in pairs mirrored about the likeliest world, which steadies their shares; as many as the work left suffices for.
 */
export function drawRecipes(
  fit: FadeFit,
  cans: Pick<Prior, "covariance">,
  imitation: readonly Float64Array[],
  { draws: wanted, seed, work }: { readonly draws: number; readonly seed: number; readonly work: Work },
): readonly RecipeDraw[] {
  const { posterior, panels } = fit.belief;
  const { u } = posterior;
  const toners = fit.formula.grams.length;
  const fading = panels.map((_, p) => fadingOf(fit, p));
  const root = lowerFactor(cans.covariance, toners);
  const random = createRandom(seed);
  const { rows } = posterior;
  const normals = rows + u.length + toners;
  const steps =
    2 * rows * u.length +
    2 * posterior.factor.stepsToWhiten +
    60 * normals +
    toners * (toners + 60 * panels.length);
  const draws = Math.max(LEAST_DRAWS, Math.min(wanted, Math.floor((DRAWN_SHARE * work.left()) / steps)));
  work.spend(draws * steps);
  const world = (step: Float64Array, strengthSteps: Float64Array, sign: 1 | -1): RecipeDraw => {
    const drawn = u.map((value, x) => value + sign * step[x]);
    const strengths = strengthSteps.map((value) => Math.exp(sign * value));
    return {
      strengths,
      recipes: imitation.map((more, p) =>
        fading[p].grams(drawn).map((grams, j) => (grams + more[j]) / strengths[j]),
      ),
    };
  };
  const pairs = Array.from({ length: Math.ceil(draws / 2) }, () => {
    const step = drawStep(posterior, random);
    const strengthSteps = correlatedNormal(root, toners, random);
    return [world(step, strengthSteps, 1), world(step, strengthSteps, -1)];
  });
  return pairs.flat().slice(0, draws);
}
