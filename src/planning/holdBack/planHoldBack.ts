import { SPRAYING_CAUTION } from "../../core/caution.js";
import { sum } from "../../core/sum.js";
import type { Warning } from "../../core/warning.js";
import { WORK_DEFAULTS, type WorkOptions, workFor, workWarnings } from "../../core/workOptions.js";
import { gramsById } from "../../toners/pot.js";
import { fitFade } from "../fade/fitFade.js";
import { panelFade } from "../fade/panelFade.js";
import { isExplained, rankFormulas } from "../fade/rankFormulas.js";
import { drawRecipes, type RecipeDraw } from "./drawRecipes.js";
import type { HoldBackPlan, PlannedPanel } from "./holdBackPlan.js";
import { ofMass } from "./massToReach.js";
import { missOf, paintMove } from "./paintMove.js";
import { type PanelRecipe, panelRecipes } from "./panelRecipes.js";
import { type CheckedPlanJob, checkPlanJob, type PlanJob } from "./planJob.js";
import { holdBack, type PotStage, type PotTask, planPot } from "./planPot.js";
import { preparePlan } from "./planProblem.js";
import { planWarnings } from "./planWarnings.js";
import { type PotOfPanels, sharePots } from "./sharePots.js";

/** A few seconds; a plan of one formula and three panels takes a tenth of it. */
const PLAN_WORK: Required<WorkOptions> = Object.freeze({ ...WORK_DEFAULTS, maxWork: 2e9 });

/** Of the work, what the fits of all formulas may take. */
const FITS_SHARE = 0.4;

const METHOD =
  "Fade as part of one belief about paint, panels and readings (Laplace); reach judged in worlds drawn from it and from the strengths of the cans; cards and waste from the first 300 of them, played through with the exact model, pours being off by what the cards leave uncertain of the cans.";

/**
 * The first pot for panels that have faded: what to pour now and what to keep back of a formula, so that every panel
 * stays within reach by adding alone with the wanted probability; which formula the panels were painted with; and
 * whether one colour, one pot in turn or several pots serve them. Throws InputError with code and place; that no
 * formula explains the panels is an answer. Sources: Johnston-Feller et al. 1984; theory.md, Fade and after.
 */
export function planHoldBack(job: PlanJob, limits: WorkOptions = {}): HoldBackPlan {
  const checked = checkPlanJob(job);
  const { options, panels } = checked;
  const work = workFor(limits, PLAN_WORK);
  const plan = preparePlan(checked);
  const { model, formulas, warnings } = plan;
  const prior = { ...plan.prior, work };
  const ofFits = work.share(FITS_SHARE);
  const fits = formulas.map((formula, i) => {
    const own = { ...plan.prior, work: ofFits.share(1 / (formulas.length - i)) };
    return fitFade({ ...plan, prior: own }, formula, checked);
  });
  const ranked = rankFormulas(checked, fits);
  const formula = checked.formula ?? ranked[0].formula;
  const fit = fits[checked.formulas.findIndex(({ name }) => name === formula)];

  const recipes = panelRecipes(model, fit, checked, work);
  const draws = drawRecipes(
    fit,
    prior,
    recipes.map(({ imitation }) => imitation),
    { ...options, work },
  );
  const task = { model, prior, job: checked, formula: fit.formula.grams, draws, work };
  const { compromise, isEnough, colour } = compromiseOf(task, recipes);
  const shared = isEnough ? [] : sharePots(model, recipes, checked);
  const stages = isEnough ? [[colour]] : shared.map((pot) => stagesOf(task, recipes, pot));
  const pots = stages.map((colours) => planPot(task, colours));
  const planned = panels.map(({ name, role }, p): PlannedPanel => {
    const fade = panelFade(fit, p);
    const recipe = gramsById(ofMass(recipes[p].recipe, shareOf(checked, [p])), model.set.toners);
    return { panel: name, role, explained: isExplained(fade), recipe, ...fade };
  });
  return {
    format: "masstone/hold-back",
    version: 1,
    status: planned.every(({ explained }) => explained) ? "planned" : "unexplained",
    formula,
    formulas: ranked,
    panels: planned,
    strategy: isEnough ? "one-colour" : pots.length === 1 ? "chain" : "fork",
    compromise,
    pots,
    reachProbability: options.reachProbability,
    draws: draws.length,
    seed: options.seed,
    method: METHOD,
    warnings: [
      ...warnings,
      ...planWarnings(checked, planned, pots),
      ...workWarnings([
        ...(ofFits.isSpent() ? ["which formula the panels have, and how it has faded"] : []),
        ...(work.isSpent() ? ["worlds drawn and played through, and the recipes of panels"] : []),
      ]),
    ] satisfies readonly Warning[],
    caution: SPRAYING_CAUTION,
  };
}

/** Grams of paint for some panels, by their shares. */
function shareOf({ panels, wantedGrams }: CheckedPlanJob, some: readonly number[]): number {
  const total = (of: readonly number[]) => of.reduce((sum, p) => sum + panels[p].share, 0);
  return (wantedGrams * total(some)) / total([...panels.keys()]);
}

/** One colour for all panels, from the first pot that keeps them all within reach; its price, and whether it passes. */
function compromiseOf(task: PotTask, recipes: readonly PanelRecipe[]) {
  const { model, job } = task;
  const all = [...job.panels.keys()];
  const { pot: first, task: reach } = holdBack(task, all, job.wantedGrams);
  // Less paint than the scale can weigh leaves the first pot empty; the colours are the same.
  const pot = first.some((grams) => grams > 0) ? first : reach.full;
  const wanted = recipes.map((recipe) => recipe.wanted);
  const maxPours = model.set.toners.length;
  const limits = { ...job.limits, potMaxGrams: reach.mostGrams, scaleStepGrams: 0, maxPours };
  const { additions, misses } = paintMove(model, pot, wanted, { job, limits, work: task.work });
  const today = pot.map((grams, j) => grams + additions[j]);
  const hasEdge = job.panels.some(({ role }) => role === "edge");
  const colour: PotStage = {
    panels: all,
    grams: job.wantedGrams,
    potGrams: job.wantedGrams,
    today,
    recipe: (draw) => movedWith(draw, recipes, today),
    allowanceUsed: (panel, paint) =>
      missOf(model, { role: hasEdge ? "edge" : "blend", panel }, paint, job).allowanceUsed,
  };
  return {
    colour,
    isEnough: misses.every(({ allowanceUsed }) => allowanceUsed <= 1),
    compromise: {
      recipe: gramsById(ofMass(today, job.wantedGrams), model.set.toners),
      prices: misses.map((miss, p) => ({ panel: job.panels[p].name, ...miss })),
    },
  };
}

/** A compromise in a drawn world: each toner moved by the mean factor by which the panels' recipes are. */
function movedWith(draw: RecipeDraw, recipes: readonly PanelRecipe[], today: Float64Array): Float64Array {
  return today.map((grams, j) => {
    const factors = recipes.flatMap(({ recipe }, p) =>
      recipe[j] > 0 ? [draw.recipes[p][j] / recipe[j]] : [],
    );
    if (factors.length === 0) return grams / draw.strengths[j];
    return (grams * sum(factors)) / factors.length;
  });
}

/** The colours of a chain: of each panel's paint so much is kept as the next panels need once the pot has grown. */
function stagesOf(
  { model, job }: PotTask,
  recipes: readonly PanelRecipe[],
  { panels, growth }: PotOfPanels,
): readonly PotStage[] {
  const stages: PotStage[] = [];
  let after = 0;
  for (let i = panels.length - 1; i >= 0; i--) {
    const p = panels[i];
    const grams = shareOf(job, [p]);
    const potGrams = grams + after / (growth[i] ?? 1);
    after = potGrams;
    stages.unshift({
      panels: [p],
      grams,
      potGrams,
      today: recipes[p].recipe,
      recipe: (draw) => draw.recipes[p],
      allowanceUsed: (panel, paint) =>
        missOf(model, { role: job.panels[p].role, panel }, paint, job).allowanceUsed,
    });
  }
  return stages;
}
