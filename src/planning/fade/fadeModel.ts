import { wavelengths } from "../../spectra/grid.js";
import { type FadePriors, fadePriorOf } from "../../toners/fadePrior.js";
import type { Toner } from "../../toners/toner.js";
import { colouringToners } from "../holdBack/colouringToners.js";
import type { PlanOptions } from "../holdBack/planOptions.js";
import type { FormulaData, PanelData } from "../holdBack/planProblem.js";
import { createFadeUnknowns, type FadeUnknowns, SMOOTH_TERMS } from "./fadeUnknowns.js";

/** A formula that fades on the panels: what the unknowns of a fit mean in grams and ln(K/S). */
export interface FadeModel {
  readonly formula: FormulaData;
  readonly panels: readonly PanelData[];
  readonly options: PlanOptions;
  /** Toners of the formula that colour it, as indices into the toner set. */
  readonly toners: readonly number[];
  readonly unknowns: FadeUnknowns;
  /** By toner of `toners`: median loss at dose 1, and standard deviation of its logarithm. */
  readonly medianLoss: Float64Array;
  readonly logLossSd: Float64Array;
  /** By toner: sd of ln of what went into the panels' paint; 0 for the toner there is most of, as only ratios show. */
  readonly batchSd: Float64Array;
  /** By toner: sd of ln of what the toner does over what its model says; likewise 0 for that one. */
  readonly tonerSd: Float64Array;
  /** Band by band: what a yellowing of one sd adds to K/S, and the terms of the smooth curve, each of one sd. */
  readonly yellow: Float64Array;
  readonly smooth: readonly Float64Array[];
}

export function createFadeModel(
  formula: FormulaData,
  panels: readonly PanelData[],
  { fadePriors, options }: { readonly fadePriors: FadePriors; readonly options: PlanOptions },
): FadeModel {
  const { set, coefficients } = formula.model;
  const { size } = coefficients;
  const toners = colouringToners(formula.model).filter((j) => formula.grams[j] > 0);
  const most = Math.max(...toners.map((j) => formula.grams[j]));
  const priors = toners.map((j) => logNormal(set.toners[j], fadePriors));
  const nm = wavelengths(set.grid);
  const overGeometries = (of: (nm: number, band: number) => number) => {
    const one = nm.map(of);
    return Float64Array.from({ length: size }, (_, b) => one[b % nm.length]);
  };
  return {
    formula,
    panels,
    options,
    toners,
    unknowns: createFadeUnknowns(toners.length, panels.length),
    medianLoss: Float64Array.from(priors, ({ median }) => median),
    logLossSd: Float64Array.from(priors, ({ logSd }) => logSd),
    batchSd: Float64Array.from(toners, (j) => (formula.grams[j] === most ? 0 : options.batchSd)),
    tonerSd: Float64Array.from(toners, (j) => (formula.grams[j] === most ? 0 : options.tonerSd)),
    yellow: overGeometries((w) => options.yellowingSd * Math.exp(-(w - 400) / options.yellowingWidth)),
    smooth: Array.from({ length: SMOOTH_TERMS }, (_, term) =>
      overGeometries((_w, band) => options.smoothSd * Math.cos((Math.PI * term * (band + 0.5)) / nm.length)),
    ),
  };
}

/** The log-normal law of the given mean and sd: sd of the logarithm √ln(1 + sd²/mean²), median mean·e^(−sd²/2). */
function logNormal(toner: Toner, given: FadePriors): { readonly median: number; readonly logSd: number } {
  const { meanLoss, sdLoss } = fadePriorOf(toner, given);
  const variance = Math.log(1 + (sdLoss / meanLoss) ** 2);
  return { median: meanLoss * Math.exp(-variance / 2), logSd: Math.sqrt(variance) };
}

/** −ln fraction that light took of a toner on a panel: medianLoss·exp(lightfastness + dose + uneven), each × its sd. */
export function fadeLoss(model: FadeModel, z: ArrayLike<number>, panel: number, i: number): number {
  const { unknowns: at, options, logLossSd, medianLoss } = model;
  const exponent =
    logLossSd[i] * z[at.lightfastness(i)] +
    options.doseSd * z[at.dose(panel)] +
    options.unevenSd * z[at.uneven(panel, i)];
  return medianLoss[i] * Math.exp(Math.min(exponent, LARGEST_EXPONENT));
}

/** The exponent is held below this: at a loss of e^20 nothing is left of a toner. */
const LARGEST_EXPONENT = 20;

/** ln of what is on the panel of a toner, over what the formula says: batch − loss. Above 0 it looks stronger. */
export function logRemaining(model: FadeModel, z: ArrayLike<number>, panel: number, i: number): number {
  return model.batchSd[i] * z[model.unknowns.batch(i)] - fadeLoss(model, z, panel, i);
}

/** Grams of every toner of the set that make the panel's paint, yellowing left out; binder stays as the formula says. */
export function fadedGrams(model: FadeModel, z: ArrayLike<number>, panel: number): Float64Array {
  const grams = Float64Array.from(model.formula.grams);
  model.toners.forEach((j, i) => {
    grams[j] *= Math.exp(logRemaining(model, z, panel, i));
  });
  return grams;
}

/** What of every toner the panel shows by the model: the faded grams, each by how far the toner is off its model. */
export function shownGrams(model: FadeModel, z: ArrayLike<number>, panel: number): Float64Array {
  const grams = fadedGrams(model, z, panel);
  model.toners.forEach((j, i) => {
    grams[j] *= Math.exp(model.tonerSd[i] * z[model.unknowns.misjudged(i)]);
  });
  return grams;
}
