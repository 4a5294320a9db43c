import { sum } from "../../core/sum.js";
import { createGradient, differentiate } from "../../forward/differentiate.js";
import { createEvaluation, evaluate } from "../../forward/evaluate.js";
import type { ForwardModel } from "../../forward/forwardModel.js";
import { addProduct } from "../../numeric/linear/addProduct.js";
import { choleskyInPlace, solveLower, solveLowerTransposed } from "../../numeric/linear/triangularSolve.js";
import { tiltedSlope } from "../../toners/orientation.js";
import { isEffect } from "../../toners/toner.js";
import type { SpectralAim } from "../goal.js";
import { withTilt } from "./withTilt.js";

/** How the flakes of the panels lie against those of the card. */
export interface PanelSpray {
  /** ln of the width of their tilts against the card's: above 0 they lie steeper. */
  readonly tilt: number;
  /** What paint and spraying together leave, root mean square as a share of reflectance. */
  readonly left: number;
}

/** A card whose model is tied, its pot, and how its flakes lie. */
export interface LyingCard {
  readonly model: ForwardModel;
  readonly pot: ArrayLike<number>;
  readonly tilt: number;
}

/** The panel's paint beforehand: ln grams of each toner in the pot; others but flake, as a share of the pot. */
const IN_POT_SD = 0.3;
const OTHER_SD = 0.02;
/** Of the tilt beforehand. */
const TILT_SD = 0.2;
/** What the model misses of a panel: share of a band's reflectance, and a floor; alike over so many bands (design values). */
const MISFIT = { share: 0.02, floor: 0.002, bandsAlike: 5 } as const;
const STEPS = 6;
/** No ln moves further than this in one step. */
const LONGEST_STEP = 0.5;

/**
 * How differently the panels were sprayed, found together with how differently they are tinted: Gauss–Newton on tilt (ln of
 * the width of the flakes' tilts against the card's) and grams, from the card, for the least Σ((R − R_panel)/σ)² +
 * Σ(change/sd)². Tilt moves all bands of the flake's share alike and changes sign between face and flop; no pigment does.
 */
export function panelSpray(
  { model, pot, tilt: ofCard }: LyingCard,
  panels: readonly SpectralAim[],
): PanelSpray {
  const { toners, size } = model.coefficients;
  const bands = size / model.geometries.length;
  const total = sum(Array.from(pot));
  const free = Array.from({ length: toners }, (_, j) => j).filter(
    (j) => pot[j] > 0 || !isEffect(model.set.toners[j]),
  );
  const sds = [TILT_SD, ...free.map((j) => (pot[j] > 0 ? IN_POT_SD : OTHER_SD))];
  const count = sds.length;
  const seen = panels.filter(({ weight }) => weight > 0);
  const change = new Float64Array(count);
  const at = createEvaluation(model);
  const gradient = createGradient(model);
  let left = 0;
  for (let step = 0; step <= STEPS; step++) {
    const lying = withTilt(model, ofCard, change[0]);
    const grams = Float64Array.from(pot);
    const perChange = new Float64Array(toners);
    free.forEach((j, i) => {
      perChange[j] = pot[j] > 0 ? pot[j] * Math.exp(change[i + 1]) : total;
      grams[j] = pot[j] > 0 ? perChange[j] : total * change[i + 1];
    });
    evaluate(lying, grams, at);
    differentiate(lying, at, gradient, free);
    const rows = seen.length * bands;
    const slopes = new Float64Array(rows * count);
    const residual = new Float64Array(rows);
    let square = 0;
    seen.forEach(({ geometry, reflectance }, p) => {
      for (let b = 0; b < bands; b++) {
        const row = p * bands + b;
        const place = geometry * bands + b;
        const sd = Math.sqrt(MISFIT.bandsAlike) * Math.hypot(MISFIT.floor, MISFIT.share * reflectance[b]);
        const off = reflectance[b] - at.reflectance[place];
        residual[row] = off / sd;
        square += (off / (reflectance[b] + MISFIT.floor)) ** 2 / rows;
        free.forEach((j, i) => {
          slopes[row * count + i + 1] = (perChange[j] * gradient.reflectance[j * size + place]) / sd;
          const curve = lying.orientation[j]?.[geometry];
          if (curve) {
            const byTilt = lying.coefficients.s[j * size + place] * tiltedSlope(curve, ofCard + change[0]);
            slopes[row * count] += (grams[j] * gradient.byS[place] * byTilt) / sd;
          }
        });
      }
    });
    left = Math.sqrt(square);
    if (step === STEPS) break;
    const normal = new Float64Array(count * count);
    addProduct({ values: slopes, width: count }, { values: slopes, width: count }, normal);
    const move = new Float64Array(count);
    for (let i = 0; i < count; i++) {
      for (let row = 0; row < rows; row++) move[i] += slopes[row * count + i] * residual[row];
      move[i] -= change[i] / sds[i] ** 2;
      normal[i * count + i] += 1 / sds[i] ** 2;
    }
    choleskyInPlace(normal, 0, count);
    solveLower(normal, count, move, 0, 1);
    solveLowerTransposed(normal, count, move, 0, 1);
    const longest = move.reduce((most, value) => Math.max(most, Math.abs(value)), LONGEST_STEP);
    for (let i = 0; i < count; i++) change[i] += (move[i] * LONGEST_STEP) / longest;
  }
  return { tilt: change[0], left };
}
