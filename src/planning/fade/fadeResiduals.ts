import type { LeastSquaresProblem } from "../../numeric/leastSquares/levenbergMarquardt.js";
import { mix } from "../../toners/coefficients.js";
import { type FadeModel, fadeLoss, shownGrams } from "./fadeModel.js";

/** Bound on the unknowns, in standard deviations of their priors; beyond it the formula does not fit. */
const FURTHEST = 12;

/**
 * The fade fit as a least-squares problem: (ln q_read − ln q_model)/sd for every band of every panel, then the
 * unknowns themselves, their priors being standard normal. At a panel
 * q = (scale·ΣaK + ghost)/ΣaS + yellowing·e^(−(λ−400)/width), a = formula ∘ remaining ∘ misjudged; ln q carries the
 * smooth curve.
 */
export function fadeResiduals(model: FadeModel): LeastSquaresProblem {
  const { panels, unknowns: at } = model;
  const { size } = model.formula.model.coefficients;
  const rows = panels.length * size;
  const lower = new Float64Array(at.count).fill(-FURTHEST);
  const upper = new Float64Array(at.count).fill(FURTHEST);
  for (let p = 0; p < panels.length; p++) {
    lower[at.yellowing(p)] = 0;
    upper[at.yellowing(p)] = 1e3;
  }
  const start = new Float64Array(at.count);
  return {
    residualCount: rows + at.count,
    start,
    lower,
    upper,
    residuals(z, out) {
      panels.forEach(({ logRatio, sd }, p) => {
        const { ratio } = ratioOf(model, z, p);
        for (let b = 0; b < size; b++) {
          let predicted = Math.log(ratio[b]);
          for (let term = 0; term < model.smooth.length; term++) {
            predicted += z[at.smooth(p, term)] * model.smooth[term][b];
          }
          out[p * size + b] = (predicted - logRatio[b]) / sd[b];
        }
      });
      out.set(z, rows);
    },
    jacobian(z, out) {
      out.fill(0);
      panels.forEach((_, p) => {
        fillPanel(model, z, p, out);
      });
      for (let n = 0; n < at.count; n++) out[(rows + n) * at.count + n] = 1;
    },
  };
}

/** K/S of a panel band by band, with the K and S of its paint. */
function ratioOf(model: FadeModel, z: ArrayLike<number>, panel: number) {
  const { coefficients, anchor } = model.formula.model;
  const { size } = coefficients;
  const k = new Float64Array(size);
  const s = new Float64Array(size);
  mix(coefficients, shownGrams(model, z, panel), k, s);
  const yellowing = z[model.unknowns.yellowing(panel)];
  const paint = k.map((value, b) => Math.max(0, anchor.scale[b] * value + anchor.ghost[b]) / s[b]);
  const ratio = paint.map((value, b) => Math.max(LEAST_RATIO, value + yellowing * model.yellow[b]));
  return { ratio, paint, s };
}

/** Floor of K/S: no reading tells less from none. */
const LEAST_RATIO = 1e-9;

function fillPanel(model: FadeModel, z: Float64Array, p: number, out: Float64Array): void {
  const { unknowns: at, toners, options, logLossSd } = model;
  const { coefficients, anchor } = model.formula.model;
  const { size, k, s } = coefficients;
  const { ratio, paint, s: scattering } = ratioOf(model, z, p);
  const grams = shownGrams(model, z, p);
  const { sd } = model.panels[p];
  for (let b = 0; b < size; b++) {
    const row = (p * size + b) * at.count;
    toners.forEach((j, i) => {
      const place = j * size + b;
      const perLog = (grams[j] * (anchor.scale[b] * k[place] - paint[b] * s[place])) / scattering[b];
      const slope = perLog / ratio[b] / sd[b];
      const loss = -slope * fadeLoss(model, z, p, i);
      out[row + at.batch(i)] += slope * model.batchSd[i];
      out[row + at.misjudged(i)] += slope * model.tonerSd[i];
      out[row + at.lightfastness(i)] += loss * logLossSd[i];
      out[row + at.dose(p)] += loss * options.doseSd;
      out[row + at.uneven(p, i)] += loss * options.unevenSd;
    });
    out[row + at.yellowing(p)] = model.yellow[b] / ratio[b] / sd[b];
    model.smooth.forEach((curve, term) => {
      out[row + at.smooth(p, term)] = curve[b] / sd[b];
    });
  }
}
