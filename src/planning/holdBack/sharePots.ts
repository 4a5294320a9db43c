import type { ForwardModel } from "../../forward/forwardModel.js";
import { fewestPots } from "./fewestPots.js";
import { massToReach, ofMass } from "./massToReach.js";
import { paintColours, paintReflectance } from "./paintColours.js";
import { missOf } from "./paintMove.js";
import type { PanelRecipe } from "./panelRecipes.js";
import type { CheckedPlanJob } from "./planJob.js";

/** One pot and the panels it serves, in the order of spraying. */
export interface PotOfPanels {
  readonly panels: readonly number[];
  /** How much the pot grows from each panel to the next by what is poured in; one factor fewer than panels. */
  readonly growth: readonly number[];
}

/**
 * The fewest pots for the panels, and the least poured between them: one panel's paint may become the next one's by
 * adding alone, bⱼ ≤ s·tⱼ, while the pot grows by no more than `mostGrowth`. Panels within each other's tolerance
 * count as equal: nothing is poured between them.
 */
export function sharePots(
  model: ForwardModel,
  recipes: readonly PanelRecipe[],
  job: CheckedPlanJob,
): readonly PotOfPanels[] {
  const growth = recipes.map((from) =>
    recipes.map((to) => (isAlike(model, from, to, job) ? 1 : growthBetween(from.recipe, to.recipe))),
  );
  const costs = growth.map((row) =>
    row.map((factor) => (factor <= job.options.mostGrowth ? factor - 1 : Number.POSITIVE_INFINITY)),
  );
  return fewestPots(costs).map((panels) => ({
    panels,
    growth: panels.slice(1).map((to, i) => growth[panels[i]][to]),
  }));
}

/** Mass of the pot once it has become recipe `to` by adding alone, ÷ its mass as recipe `from`. */
function growthBetween(from: Float64Array, to: Float64Array): number {
  return massToReach(ofMass(from, 1), to);
}

/** Whether one panel's paint passes on the other. */
function isAlike(model: ForwardModel, from: PanelRecipe, to: PanelRecipe, job: CheckedPlanJob): boolean {
  const { role, reflectance } = to.wanted;
  const paint = paintColours(model, paintReflectance(model, from.recipe));
  return missOf(model, { role, panel: paintColours(model, reflectance) }, paint, job).allowanceUsed <= 1;
}
