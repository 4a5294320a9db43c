import type { Work } from "../../core/createWork.js";
import { sum } from "../../core/sum.js";
import type { ForwardModel } from "../../forward/forwardModel.js";
import type { Grams } from "../../toners/pot.js";
import { fadingOf } from "../fade/fading.js";
import type { FadeFit } from "../fade/fitFade.js";
import { paintReflectance } from "./paintColours.js";
import { paintMove, type WantedColour } from "./paintMove.js";
import type { CheckedPlanJob } from "./planJob.js";

/** What to mix for a panel as it looks today: the faded formula, and what imitates the yellowing. */
export interface PanelRecipe {
  /** Grams in the order of the toner set, both together; only shares matter. */
  readonly recipe: Float64Array;
  readonly imitation: Float64Array;
  /** The panel's colour by the model, without what the model misses of it. */
  readonly wanted: WantedColour;
}

/**
 * Yellowing is imitated to this ΔE00, with a few pours and no more than as much paint again; by the formula's own
 * toners where they come near enough, so that one panel's pot can still become another's. Our choice.
 */
const NEAR = Object.freeze({ edgeDeltaE00: 0.1, blendDeltaE00: 0.1 });
const NEAR_ENOUGH = 0.3;
const IMITATION_POURS = 3;

/**
 * Paint cannot yellow on demand: of the fitted panel the toners' part is the faded formula, and what `correct` would
 * add to that to reach the yellowed colour stands for the rest. `model` is that of the cans as they are said to be.
 */
export function panelRecipes(
  model: ForwardModel,
  fit: FadeFit,
  job: CheckedPlanJob,
  work: Work,
): readonly PanelRecipe[] {
  const { u } = fit.belief.posterior;
  const others = Object.fromEntries(
    model.set.toners.flatMap(({ id }, j) => (fit.formula.grams[j] > 0 ? [] : [[id, 0]])),
  );
  return job.panels.map(({ name, role, share }, p) => {
    const fading = fadingOf(fit, p);
    const faded = fading.grams(u);
    const yellowing = fading.yellowing(u);
    const reflectance = paintReflectance(model, faded, (b) => yellowing[b]);
    const mass = sum(faded);
    const imitate = (stockGrams: Grams) =>
      paintMove(model, faded, [{ name, role: "edge", share, reflectance }], {
        job: { ...job, tolerance: NEAR },
        work,
        limits: { potMaxGrams: 2 * mass, scaleStepGrams: 0, maxPours: IMITATION_POURS, stockGrams },
      });
    const own = imitate(others);
    const { additions } = own.misses[0].deltaE00 <= NEAR_ENOUGH ? own : imitate({});
    return {
      recipe: faded.map((grams, j) => grams + additions[j]),
      imitation: additions,
      wanted: { name, role, share, reflectance },
    };
  });
}
