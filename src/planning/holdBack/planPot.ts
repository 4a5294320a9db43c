import type { Prior } from "../../belief/prior.js";
import type { Work } from "../../core/createWork.js";
import { sum } from "../../core/sum.js";
import type { ForwardModel } from "../../forward/forwardModel.js";
import { withoutTail } from "../../numeric/scalar/withoutTail.js";
import { LIMITS_DEFAULTS } from "../../problem/limits.js";
import { cardInformation } from "./cardInformation.js";
import type { RecipeDraw } from "./drawRecipes.js";
import { expectedCost, type Stage } from "./expectedCost.js";
import { type FirstPotTask, firstPot, nearestStep, reachProbability } from "./firstPot.js";
import type { ExpectedPour, PlannedPot, PlannedStage, StartOfPot } from "./holdBackPlan.js";
import { massToReach, ofMass } from "./massToReach.js";
import { paintColours, paintReflectance } from "./paintColours.js";
import type { CheckedPlanJob } from "./planJob.js";

/** One colour to spray from a pot: the panels that get it, by index, how much of it, and its recipe today. */
export interface PotStage extends Stage {
  readonly panels: readonly number[];
  readonly today: Float64Array;
}

/** What a pot is planned from. */
export interface PotTask {
  readonly model: ForwardModel;
  readonly prior: Prior;
  readonly job: CheckedPlanJob;
  readonly formula: Float64Array;
  readonly draws: readonly RecipeDraw[];
  readonly work: Work;
}

/** Number of worlds in which the job is simulated; reach is judged in all worlds drawn. */
const PLAYED = 300;

/** The first pot for some panels at a size, and the most it may come to hold. */
export function holdBack(
  { job, formula, draws }: Omit<PotTask, "model" | "prior" | "work">,
  panels: readonly number[],
  grams: number,
) {
  const { options, limits } = job;
  const task: FirstPotTask = {
    draws,
    panels,
    full: ofMass(formula, grams),
    mostGrams: Math.min(limits.potMaxGrams ?? Number.POSITIVE_INFINITY, options.mostSurplus * grams),
    probability: options.reachProbability,
    step: limits.scaleStepGrams ?? LIMITS_DEFAULTS.scaleStepGrams,
  };
  return { task, pot: firstPot(task) };
}

/** The whole plan of one pot that goes through `stages`. */
export function planPot(task: PotTask, stages: readonly PotStage[]): PlannedPot {
  const { model, prior, job, draws, work } = task;
  const { options, panels: named } = job;
  const panels = stages.flatMap((stage) => stage.panels);
  const wantedGrams = stages[0].potGrams;
  const { task: reach, pot } = holdBack(task, panels, wantedGrams);
  const played = draws.slice(0, PLAYED);
  const atGoal = cardInformation(prior, ofMass(stages[0].today, wantedGrams));
  const startFrom = (start: Float64Array, ofStart = cardInformation(prior, start)): StartOfPot => {
    const information = [ofStart, atGoal] as const;
    return {
      reachProbability: reachProbability(start, reach),
      ...expectedCost(model, start, stages, {
        draws: played,
        seed: options.seed,
        information,
        mostGrams: reach.mostGrams,
        work,
      }),
    };
  };
  const ofPot = cardInformation(prior, pot);
  const { sdBefore, sd: sdAfter } = ofPot;
  return {
    panels: panels.map((p) => named[p].name),
    wantedGrams,
    mostGrams: reach.mostGrams,
    pourNow: model.set.toners.flatMap(({ id }, j) =>
      reach.full[j] === 0
        ? []
        : [
            {
              toner: id,
              grams: pot[j],
              formulaGrams: withoutTail(reach.full[j]),
              keptBackGrams: nearestStep(
                Math.max(0, nearestStep(reach.full[j], reach.step) - pot[j]),
                reach.step,
              ),
              strengthSd: sdBefore[j],
              strengthSdAfterCard: sdAfter[j],
              identified: sdAfter[j] <= options.identifiedSd,
            },
          ],
    ),
    stages: plannedStages(task, pot, stages, reach.step),
    held: startFrom(pot, ofPot),
    full: startFrom(reach.full),
  };
}

/** The pours from the first pot to each colour in turn, at today's recipes and in scale steps. */
function plannedStages(
  { model, job }: PotTask,
  pot: Float64Array,
  stages: readonly PotStage[],
  step: number,
): readonly PlannedStage[] {
  let inPot: Float64Array = pot;
  return stages.map((stage) => {
    const pours = poursTowards(model, inPot, stage, step);
    const full = inPot.map((amount, j) => amount + pours[j]);
    const total = sum(full);
    const left = total > 0 ? Math.max(0, total - stage.grams) / total : 0;
    inPot = full.map((amount) => amount * left);
    return {
      panels: stage.panels.map((p) => job.panels[p].name),
      pours: poursOf(model, pours),
      potGrams: withoutTail(total),
      sprayGrams: stage.grams,
    };
  });
}

/** A pour is left out if the colour then uses at most this share of its allowance. */
const SPARE = 0.5;

/** What is poured to turn the pot into a stage's recipe; nothing where it passes already, and no pour that can be spared. */
function poursTowards(model: ForwardModel, inPot: Float64Array, stage: PotStage, step: number): Float64Array {
  const mass = Math.max(stage.potGrams, massToReach(inPot, stage.today));
  const poursFor = (grams: number) =>
    ofMass(stage.today, grams).map((amount, j) => nearestStep(Math.max(0, amount - inPot[j]), step));
  const wanted = paintColours(model, paintReflectance(model, stage.today));
  const used = (pours: Float64Array) => {
    const mixed = inPot.map((amount, j) => amount + pours[j]);
    return stage.allowanceUsed(wanted, paintColours(model, paintReflectance(model, mixed)));
  };
  const nothing = new Float64Array(inPot.length);
  if (sum(inPot) >= stage.potGrams * MASS_ENOUGH && used(nothing) <= 1) return nothing;
  const pours = poursFor(mass);
  const spared = new Set<number>();
  for (const j of [...pours.keys()].sort((a, b) => pours[a] - pours[b])) {
    if (used(without(pours, [...spared, j])) <= 1 - SPARE) spared.add(j);
  }
  const missing = [...spared].reduce((grams, j) => grams + pours[j], 0);
  return without(poursFor(mass + missing), [...spared]);
}

/** From this share on, the paint wanted counts as there. */
const MASS_ENOUGH = 0.98;

function without(pours: Float64Array, spared: readonly number[]): Float64Array {
  return pours.map((grams, j) => (spared.includes(j) ? 0 : grams));
}

function poursOf(model: ForwardModel, amounts: Float64Array): readonly ExpectedPour[] {
  return model.set.toners
    .map(({ id }, j) => ({ toner: id, grams: amounts[j] }))
    .filter(({ grams }) => grams > 0)
    .sort((a, b) => b.grams - a.grams);
}
