import { ciede2000 } from "../../colorimetry/ciede2000.js";
import { paintColours, paintReflectance } from "../holdBack/paintColours.js";
import { fadeLoss, logRemaining, shownGrams } from "./fadeModel.js";
import type { FadeFit } from "./fitFade.js";

/** What the light left of a toner on a panel, as a fraction of what the formula says; 90 % of it between low and high. */
export interface Remaining {
  readonly toner: string;
  /** Above 1 the panel shows more of the toner than the formula explains. */
  readonly fraction: number;
  readonly low: number;
  readonly high: number;
}

/** How well a faded formula explains one panel. */
export interface PanelFade {
  readonly remaining: readonly Remaining[];
  /** K/S added at 400 nm by yellowing, and its standard deviation. */
  readonly yellowing: number;
  readonly yellowingSd: number;
  /** Largest ΔE00 over geometries and lights between the panel and the faded formula, yellowing included. */
  readonly deltaE00: number;
  /** What is left of the spectrum, in standard deviations beyond what noise explains (Wilson & Hilferty 1931). */
  readonly misfit: number;
  /** How far the fade, yellowing and batch found are from what was expected of them, in the same measure. */
  readonly implausibility: number;
}

/** Two-sided 90 % of a normal law. */
const NINETY = 1.6449;

/** Reads one panel of a fit: fractions exp(batch − loss) with their intervals, and the tests of the fit. */
export function panelFade(fit: FadeFit, panel: number): PanelFade {
  const { model, z, covariance } = fit;
  const { unknowns: at, options, toners } = model;
  const variance = (n: number) => covariance[n * at.count + n];
  const remaining = toners.map((j, i): Remaining => {
    const log = logRemaining(model, z, panel, i);
    const sd = Math.sqrt(quadratic(covariance, at.count, slopes(fit, panel, i)));
    return {
      toner: model.formula.model.set.toners[j].id,
      fraction: Math.exp(log),
      low: Math.exp(log - NINETY * sd),
      high: Math.exp(log + NINETY * sd),
    };
  });
  return {
    remaining,
    yellowing: options.yellowingSd * z[at.yellowing(panel)],
    yellowingSd: options.yellowingSd * Math.sqrt(variance(at.yellowing(panel))),
    deltaE00: largestDifference(fit, panel),
    ...testsOf(fit, panel),
  };
}

/** ∂ ln(remaining)/∂z as pairs of unknown and slope. */
function slopes({ model, z }: FadeFit, panel: number, i: number): readonly (readonly [number, number])[] {
  const { unknowns: at, options, logLossSd } = model;
  const loss = fadeLoss(model, z, panel, i);
  return [
    [at.batch(i), model.batchSd[i]],
    [at.lightfastness(i), -loss * logLossSd[i]],
    [at.dose(panel), -loss * options.doseSd],
    [at.uneven(panel, i), -loss * options.unevenSd],
  ];
}

function quadratic(
  covariance: Float64Array,
  count: number,
  row: readonly (readonly [number, number])[],
): number {
  let sum = 0;
  for (const [m, a] of row) for (const [n, b] of row) sum += a * b * covariance[m * count + n];
  return sum;
}

/**
 * The residuals of the panel's bands against their degrees of freedom (bands less their leverage), and the squares of
 * its unknowns and the shared ones against theirs (how many of them the readings determine).
 */
function testsOf(fit: FadeFit, panel: number): { readonly misfit: number; readonly implausibility: number } {
  const { model, z, covariance, residuals, jacobian } = fit;
  const { unknowns: at } = model;
  const { size } = model.formula.model.coefficients;
  let squares = 0;
  let freedom = size;
  for (let r = panel * size; r < (panel + 1) * size; r++) {
    squares += residuals[r] ** 2;
    const row = Array.from(jacobian.subarray(r * at.count, (r + 1) * at.count), (a, n) => [n, a] as const);
    freedom -= quadratic(
      covariance,
      at.count,
      row.filter(([, a]) => a !== 0),
    );
  }
  const own = [
    ...model.toners.flatMap((_, i) => [
      at.batch(i),
      at.lightfastness(i),
      at.misjudged(i),
      at.uneven(panel, i),
    ]),
    at.dose(panel),
    at.yellowing(panel),
  ];
  const determined = own.reduce((sum, n) => sum + 1 - covariance[n * at.count + n], 0);
  const distance = own.reduce((sum, n) => sum + z[n] ** 2, 0);
  return {
    misfit: beyond(squares, Math.max(1, freedom)),
    implausibility: beyond(distance, Math.max(1, determined)),
  };
}

/** A χ² as standard normal deviate: ((χ²/ν)^⅓ − 1 + 2/9ν)/√(2/9ν) (Wilson & Hilferty 1931). */
function beyond(chiSquare: number, freedom: number): number {
  const spread = 2 / (9 * freedom);
  return (Math.cbrt(chiSquare / freedom) - 1 + spread) / Math.sqrt(spread);
}

/** The reflectance of a panel as the faded formula gives it, without the smooth curve that the model misses. */
function fadedReflectance({ model, z }: FadeFit, panel: number): Float64Array {
  const yellowing = z[model.unknowns.yellowing(panel)];
  return paintReflectance(
    model.formula.model,
    shownGrams(model, z, panel),
    (b) => yellowing * model.yellow[b],
  );
}

function largestDifference(fit: FadeFit, panel: number): number {
  const { formula, panels } = fit.model;
  const read = paintColours(formula.model, panels[panel].reflectance);
  const faded = paintColours(formula.model, fadedReflectance(fit, panel));
  return Math.max(...read.map((lab, colour) => ciede2000(lab, faded[colour])));
}
