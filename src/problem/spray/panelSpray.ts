import { sum } from "../../core/sum.js";
import { createGradient, differentiate } from "../../forward/differentiate.js";
import { createEvaluation, evaluate } from "../../forward/evaluate.js";
import type { ForwardModel } from "../../forward/forwardModel.js";
import { levenbergMarquardt } from "../../numeric/leastSquares/levenbergMarquardt.js";
import { factoriseBlocks, logDeterminant } from "../../numeric/linear/borderedBlocks.js";
import { tiltedSlope } from "../../toners/orientation.js";
import { isEffect } from "../../toners/toner.js";
import type { SpectralAim } from "../goal.js";
import { withTilt } from "./withTilt.js";

/** How panels were sprayed against a card. */
export interface PanelSpray {
  /** ln of the width of the tilts of their flakes against the card's: above 0 they lie steeper. */
  readonly tilt: number;
  /** What paint and spraying together leave, root mean square in units of what the model is expected to miss. */
  readonly left: number;
}

/** A card whose model is tied, its pot, and how its flakes lie. */
export interface LyingCard {
  readonly model: ForwardModel;
  readonly pot: Float64Array;
  readonly tilt: number;
}

/** The panel's paint beforehand: sd of ln grams of each toner in the pot; of others but flake, as a share of the pot. */
interface PaintSds {
  readonly inPot: number;
  readonly other: number;
}

/** Paint that differs, and paint that was only mixed once more (design values). */
const OTHER_PAINT: PaintSds = Object.freeze({ inPot: 0.3, other: 0.02 });
const SAME_PAINT: PaintSds = Object.freeze({ inPot: 0.02, other: 0 });
/** Of the tilt beforehand. */
const TILT_SD = 0.2;
/**
 * What the model misses of a panel in a band: a share of its reflectance, and a floor; alike over so many nanometres. What
 * spraying does is known to a share of itself: without that share, other paint is seen where there is none (docs/evidence.md).
 */
const MISFIT = Object.freeze({ share: 0.02, floor: 0.002, alike: 50, ofDifference: 0.2 });
/** Other paint is told where no more than this is left, and ln of its odds is beyond that: very strong (Kass & Raftery 1995). */
const TOLD = Object.freeze({ mostLeft: 0.7, logOdds: 5 });
const EFFORT = Object.freeze({ maxIterations: 20, costTolerance: 1e-4 });

/**
 * How differently the panels were sprayed, found together with how differently they are tinted: tilt (ln of the width of
 * the flakes' tilts against the card's) and grams, from the card, of the least Σ((R − R_panel)/σ)² + Σ(change/sd)². Tilt
 * moves all bands of the flake's share alike and changes sign between face and flop; no pigment does.
 */
export function panelSpray(card: LyingCard, panels: readonly SpectralAim[]): PanelSpray {
  return explain(card, panels, { sds: OTHER_PAINT, ofDifference: 0 });
}

/** Whether the panels have another paint too, by its evidence over that of the card's paint sprayed otherwise (Laplace). */
export function hasOtherPaint(card: LyingCard, panels: readonly SpectralAim[]): boolean {
  const { ofDifference } = MISFIT;
  const [other, same] = [OTHER_PAINT, SAME_PAINT].map((sds) => explain(card, panels, { sds, ofDifference }));
  return other.left <= TOLD.mostLeft && other.logEvidence() - same.logEvidence() > TOLD.logOdds;
}

interface Explained extends PanelSpray {
  readonly logEvidence: () => number;
}

function explain(
  { model, pot, tilt: ofCard }: LyingCard,
  panels: readonly SpectralAim[],
  { sds, ofDifference }: { readonly sds: PaintSds; readonly ofDifference: number },
): Explained {
  const { coefficients, set } = model;
  const { toners, size } = coefficients;
  const total = sum(pot);
  const sdOf = (j: number) => (pot[j] > 0 ? sds.inPot : isEffect(set.toners[j]) ? 0 : sds.other);
  const free = [...pot.keys()].filter((j) => sdOf(j) > 0);
  const unknowns = 1 + free.length;
  const at = createEvaluation(model);
  const gradient = createGradient(model);
  evaluate(model, pot, at);
  /** Neighbouring bands that count as one. */
  const alike = Math.max(1, MISFIT.alike / set.grid.step);
  const bands = panels
    .filter(({ weight }) => weight > 0)
    .flatMap(({ geometry, reflectance }) =>
      Array.from(reflectance, (read, b) => {
        const place = geometry * reflectance.length + b;
        const off = ofDifference * (read - at.reflectance[place]);
        const misfit = Math.hypot(MISFIT.floor, MISFIT.share * read, off);
        return { geometry, place, read, sd: Math.sqrt(alike) * misfit };
      }),
    );
  /** Mixes and sprays the panel as `u` says, in units of sd, into `at`. */
  const spray = (u: Float64Array) => {
    const grams = pot.slice();
    const perUnit = new Float64Array(toners);
    free.forEach((j, i) => {
      const change = sdOf(j) * u[i + 1];
      grams[j] = pot[j] > 0 ? pot[j] * Math.exp(change) : total * change;
      perUnit[j] = sdOf(j) * (pot[j] > 0 ? grams[j] : total);
    });
    const lying = withTilt(model, ofCard, TILT_SD * u[0]);
    evaluate(lying, grams, at);
    return { lying, grams, perUnit };
  };
  const jacobian = (u: Float64Array, out: Float64Array) => {
    const { lying, grams, perUnit } = spray(u);
    differentiate(lying, at, gradient, free);
    out.fill(0);
    bands.forEach(({ geometry, place, sd }, r) => {
      const row = r * unknowns;
      free.forEach((j, i) => {
        out[row + i + 1] = (perUnit[j] * gradient.reflectance[j * size + place]) / sd;
        const curve = lying.orientation[j]?.[geometry];
        if (!curve) return;
        const byTilt = lying.coefficients.s[j * size + place] * tiltedSlope(curve, ofCard + TILT_SD * u[0]);
        out[row] += (TILT_SD * grams[j] * gradient.byS[place] * byTilt) / sd;
      });
    });
    for (let i = 0; i < unknowns; i++) out[(bands.length + i) * unknowns + i] = 1;
  };
  const residualCount = bands.length + unknowns;
  const { x, cost } = levenbergMarquardt(
    {
      residualCount,
      start: new Float64Array(unknowns),
      residuals: (u, out) => {
        spray(u);
        bands.forEach(({ place, read, sd }, r) => {
          out[r] = (at.reflectance[place] - read) / sd;
        });
        out.set(u, bands.length);
      },
      jacobian,
    },
    EFFORT,
  );
  const ofPanel = 2 * cost - x.reduce((all, value) => all + value * value, 0);
  return {
    tilt: TILT_SD * x[0],
    left: Math.sqrt((alike * ofPanel) / bands.length),
    logEvidence: () => {
      const values = new Float64Array(residualCount * unknowns);
      jacobian(x, values);
      // Line by line, J is Jᵀ column by column; its last lines are the identity, which the factor adds.
      const spans = Int32Array.from({ length: 2 * bands.length }, (_, i) => (i % 2) * unknowns);
      return -cost - logDeterminant(factoriseBlocks({ values, spans }, [unknowns])) / 2;
    },
  };
}
