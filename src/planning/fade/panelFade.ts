import { filmResponse } from "../../belief/filmResponse.js";
import { halfNormalSlope } from "../../belief/halfNormal.js";
import { observationsOf } from "../../belief/observationsOf.js";
import { determined, variances } from "../../belief/variances.js";
import { ciede2000 } from "../../colorimetry/ciede2000.js";
import { sum } from "../../core/sum.js";
import { whiten } from "../../numeric/linear/borderedBlocks.js";
import { dot } from "../../numeric/linear/dot.js";
import { paintColours } from "../holdBack/paintColours.js";
import { type Fading, fadingOf } from "./fading.js";
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
  const { belief, toners } = fit;
  const { scope, posterior } = belief;
  const { u } = posterior;
  const fading = fadingOf(fit, panel);
  const by = new Float64Array(u.length * (toners.length + 1));
  const width = toners.length + 1;
  toners.forEach((j, i) => {
    for (const [x, slope] of fading.slopes(u, j)) by[x * width + i] = slope;
  });
  const [atFirstBand] = fading.yellowing(u);
  const { light, yellow } = fading;
  by[yellow * width + toners.length] = light.yellow[0] * halfNormalSlope(u[yellow]);
  const sds = variances(posterior, by, width).map(Math.sqrt);
  const remaining = toners.map((j, i): Remaining => {
    const log = fading.logRemaining(u, j);
    return {
      toner: scope.model.set.toners[j].id,
      fraction: Math.exp(log),
      low: Math.exp(log - NINETY * sds[i]),
      high: Math.exp(log + NINETY * sds[i]),
    };
  });
  return {
    remaining,
    yellowing: atFirstBand,
    yellowingSd: sds[toners.length],
    deltaE00: largestDifference(fit, panel),
    ...testsOf(fit, panel, fading),
  };
}

/**
 * Before anything is seen Σu² of unknowns is expected to become Σ(1 − their variance afterwards), and Σr² of rows the trace of
 * (J·Jᵀ + I)⁻¹ over them. What the model misses: the rows of the panel and its own curve; what was expected of paint and
 * light: their unknowns.
 */
function testsOf(
  { belief }: FadeFit,
  panel: number,
  { unknowns: ofLight }: Fading,
): { readonly misfit: number; readonly implausibility: number } {
  const { posterior, scope, cards } = belief;
  const { rows, residual, factor, u } = posterior;
  const film = scope.films[cards.length + panel];
  const ofCurve = [...scope.unknowns.keys()].filter((x) => {
    const { owner, effects } = scope.unknowns[x];
    return owner === "panel" && effects.some(({ field, share }) => field === "ratio" && share(film) !== 0);
  });
  const own: number[] = [];
  let row = 0;
  for (const { films, rows: count } of observationsOf(belief, scope.model, belief.prior.sizes.readingSd)) {
    const isOwn = films.includes(cards.length + panel);
    for (const end = row + count; row < end; row++) if (isOwn) own.push(row);
  }
  // Whitened unit vectors: their squares add up to the trace.
  const unit = new Float64Array(rows * own.length);
  own.forEach((r, i) => {
    unit[r * own.length + i] = 1;
  });
  whiten(factor, unit, own.length);
  const freedom = dot(unit, unit);
  const squares = sum(own.map((r) => residual[r] ** 2));
  const expected = (some: readonly number[]) => sum(determined(posterior, some));
  const distance = (some: readonly number[]) => sum(some.map((x) => u[x] ** 2));
  return {
    misfit: beyond(squares + distance(ofCurve), Math.max(1, freedom + expected(ofCurve))),
    implausibility: beyond(distance(ofLight), Math.max(1, expected(ofLight))),
  };
}

/** A χ² as standard normal deviate: ((χ²/ν)^⅓ − 1 + 2/9ν)/√(2/9ν) (Wilson & Hilferty 1931). */
function beyond(chiSquare: number, freedom: number): number {
  const spread = 2 / (9 * freedom);
  return (Math.cbrt(chiSquare / freedom) - 1 + spread) / Math.sqrt(spread);
}

/** Between what is believed of the panel's reflectance, with a curve of its own, and the faded formula without. */
function largestDifference({ belief }: FadeFit, panel: number): number {
  const { scope, posterior, cards } = belief;
  const { model, strengths, unknowns } = scope;
  const film = scope.films[cards.length + panel];
  const isOwn = ({ owner, effects }: (typeof unknowns)[number]) =>
    owner === "panel" && effects.some(({ field }) => field === "ratio");
  const coloursAt = (u: Float64Array) =>
    paintColours(model, filmResponse(model, strengths, { unknowns, u }, film).reflectance);
  const faded = coloursAt(posterior.u.map((value, x) => (isOwn(unknowns[x]) ? 0 : value)));
  return Math.max(...coloursAt(posterior.u).map((lab, c) => ciede2000(lab, faded[c])));
}
