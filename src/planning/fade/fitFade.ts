import { type Belief, beliefOf } from "../../belief/belief.js";
import type { LightOnPanel } from "../../belief/panel.js";
import { formulaUnknowns } from "../../belief/unknowns/panels.js";
import { type Grid, wavelengths } from "../../spectra/grid.js";
import { type FadePriors, fadePriorOf } from "../../toners/fadePrior.js";
import type { Toner } from "../../toners/toner.js";
import { colouringToners } from "../holdBack/colouringToners.js";
import type { PlanOptions } from "../holdBack/planOptions.js";
import type { FormulaData, PlanProblem } from "../holdBack/planProblem.js";

/** What is believed of panels once a formula, fresh or faded, is held to be their paint. */
export interface FadeFit {
  readonly formula: FormulaData;
  /** Toners of the formula that colour it, as indices into the toner set. */
  readonly toners: readonly number[];
  /** Its card is the fresh colour, where that was read; its panels are those of the plan. */
  readonly belief: Belief;
  /** ln of the probability of the panels given the formula, but for a constant common to all formulas. */
  readonly logEvidence: number;
}

/**
 * The belief that panels and fresh colour leave of a formula: its batch off by `batchSd` of ln, each toner's loss log-normal by
 * toner, dose of the panel and unevenness, yellowing half normal, a rough curve of each panel's own. The toner there is
 * most of is put in to the gram, as only ratios show. Cans play no part: it is the paint of a factory.
 */
export function fitFade(
  { prior: cans, panels }: Pick<PlanProblem, "prior" | "panels">,
  formula: FormulaData,
  { fadePriors, options }: { readonly fadePriors: FadePriors; readonly options: PlanOptions },
): FadeFit {
  const { model } = cans;
  const { grams, fresh } = formula;
  const size = grams.length;
  const prior = { ...cans, logStrength: new Float64Array(size), covariance: new Float64Array(size * size) };
  const toners = colouringToners(model).filter((j) => grams[j] > 0);
  const most = Math.max(...toners.map((j) => grams[j]));
  const byToner = (of: (j: number) => number) => grams.map((_, j) => (toners.includes(j) ? of(j) : 0));
  const losses = model.set.toners.map((toner) => logNormal(toner, fadePriors));
  const light: LightOnPanel = {
    medianLoss: byToner((j) => losses[j].median),
    yellow: yellowing(model.set.grid, model.geometries.length, options),
    doseSd: options.doseSd,
    unevenSd: options.unevenSd,
  };
  const seen = panels.map((panel) => ({
    ...panel,
    comparisons: [],
    grams,
    tonerSds: new Float64Array(size),
    curveSd: options.curveSd,
    light,
  }));
  const unknowns = formulaUnknowns(model, {
    batchSds: byToner((j) => (grams[j] === most ? 0 : options.batchSd)),
    logLossSds: byToner((j) => losses[j].logSd),
  });
  const cards = fresh ? [{ grams, reflectance: fresh }] : [];
  const belief = beliefOf(prior, cards, { panels: seen, unknowns });
  const ofCards = fresh ? beliefOf(prior, cards).posterior.logEvidence : 0;
  return { formula, toners, belief, logEvidence: belief.posterior.logEvidence - ofCards };
}

function yellowing(
  grid: Grid,
  geometries: number,
  { yellowingSd, yellowingWidth }: PlanOptions,
): Float64Array {
  const one = wavelengths(grid).map((nm) => yellowingSd * Math.exp(-(nm - 400) / yellowingWidth));
  return Float64Array.from({ length: geometries * one.length }, (_, b) => one[b % one.length]);
}

/** The log-normal law of the given mean and sd: sd of the logarithm √ln(1 + sd²/mean²), median mean·e^(−sd²/2). */
function logNormal(toner: Toner, given: FadePriors): { readonly median: number; readonly logSd: number } {
  const { meanLoss, sdLoss } = fadePriorOf(toner, given);
  const variance = Math.log(1 + (sdLoss / meanLoss) ** 2);
  return { median: meanLoss * Math.exp(-variance / 2), logSd: Math.sqrt(variance) };
}
