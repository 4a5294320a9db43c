import { deltaE00Vector, deltaE00VectorSlopes } from "../colorimetry/deltaE00Vector.js";
import { createGradient, differentiate } from "../prediction/differentiate.js";
import { createEvaluation, evaluate } from "../prediction/evaluate.js";
import { labAt } from "./goal.js";
import type { Problem } from "./problem.js";

/** Residuals of a mix as functions of the additions of some toners, in the form that the solver takes. */
export interface Objective {
  readonly residualCount: number;
  residuals(additions: ArrayLike<number>, out: Float64Array): void;
  /** Row-major, one column per toner in `free`. */
  jacobian(additions: ArrayLike<number>, out: Float64Array): void;
}

/**
 * Weight of the spectral tie-break: one per cent RMS of reflectance counts as 0.01 ΔE00. Colour alone leaves the
 * amounts open as soon as there are more toners than colours to reach; among mixes of equal colour this prefers
 * the nearest spectrum, which also holds under other lights. It costs at most a few hundredths of ΔE00.
 */
export const SPECTRAL_WEIGHT = 1e-4;

/**
 * What added paint counts for: so many ΔE00 for as much again as the pot holds, of the sum of what is added or of
 * each toner by itself. The latter also settles amounts that colour leaves open where paint might be taken out.
 */
export interface PaintCost {
  readonly deltaE00: number;
  readonly of: "sum" | "each";
}

export const PAINT_IS_FREE: PaintCost = { deltaE00: 0, of: "sum" };

/**
 * Residuals √w·v for every aim, v the vector of `deltaE00Vector`, then √(w·ε/bands)·100·(R − R_target) for every
 * spectrum, then the cost of paint. Σr² is the weighted mean square of true ΔE00 plus tie-break and paint. `free` lists the toners that may be added, as indices into the toner set.
 */
export function createObjective(
  { model, goal, bench: { pot } }: Problem,
  free: readonly number[],
  paint: PaintCost,
): Objective {
  const { size } = model.coefficients;
  const bands = model.set.grid.count;
  const columns = 3 * model.geometries.length * model.lights.length;
  const grams = Float64Array.from(pot);
  const at = createEvaluation(model);
  const slopes = createGradient(model);
  const moveTo = (additions: ArrayLike<number>) => {
    free.forEach((toner, i) => {
      grams[toner] = pot[toner] + additions[i];
    });
    evaluate(model, grams, at);
  };
  const spectralScale = goal.spectra.map(({ weight }) => 100 * Math.sqrt((SPECTRAL_WEIGHT * weight) / bands));
  const paintRows = paint.of === "sum" ? 1 : free.length;
  const paintScale = paint.deltaE00 / pot.reduce((sum, amount) => sum + amount, 0);

  return {
    residualCount: 3 * goal.aims.length + bands * goal.spectra.length + paintRows,

    residuals(additions, out) {
      moveTo(additions);
      let row = 0;
      for (const { weight, metric, lab, place } of goal.aims) {
        const scale = Math.sqrt(weight);
        const vector = deltaE00Vector(lab, metric, labAt(at.lab, place));
        for (const missing of vector) out[row++] = scale * missing;
      }
      goal.spectra.forEach(({ geometry, reflectance }, i) => {
        for (let b = 0; b < bands; b++) {
          out[row++] = spectralScale[i] * (at.reflectance[geometry * bands + b] - reflectance[b]);
        }
      });
      out.fill(0, row, row + paintRows);
      free.forEach((_, i) => {
        out[row + (paint.of === "sum" ? 0 : i)] += paintScale * additions[i];
      });
    },

    jacobian(additions, out) {
      moveTo(additions);
      differentiate(model, at, slopes, free);
      const width = free.length;
      const slopesOfAims = goal.aims.map(
        ({ lab, metric, place }) => deltaE00VectorSlopes(lab, metric, labAt(at.lab, place)).slopes,
      );
      free.forEach((toner, column) => {
        let index = column;
        goal.aims.forEach(({ weight, place }, aim) => {
          const scale = Math.sqrt(weight);
          const from = toner * columns + place;
          for (const [mL, ma, mb] of slopesOfAims[aim]) {
            out[index] =
              scale * (mL * slopes.lab[from] + ma * slopes.lab[from + 1] + mb * slopes.lab[from + 2]);
            index += width;
          }
        });
        goal.spectra.forEach(({ geometry }, i) => {
          const from = toner * size + geometry * bands;
          for (let b = 0; b < bands; b++) {
            out[index] = spectralScale[i] * slopes.reflectance[from + b];
            index += width;
          }
        });
        for (let r = 0; r < paintRows; r++) {
          out[index] = paint.of === "sum" || r === column ? paintScale : 0;
          index += width;
        }
      });
    },
  };
}
