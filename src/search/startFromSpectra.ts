import { sum } from "../core/sum.js";
import { usableInternal } from "../forward/anchor.js";
import { nnls } from "../numeric/leastSquares/nnls.js";
import { absorptionRatio, reflectivitySlope } from "../optics/infiniteFilm.js";
import type { Problem } from "../problem/problem.js";
import type { PaintCost } from "../problem/terms.js";
import { mix } from "../toners/coefficients.js";

/** RMS reflectance taken for one ΔE00 when weighing paint against it; only the order of magnitude matters. */
const PER_DELTA_E00 = 0.01;

/** Rounds of reweighting: the second sees the scattering of the mix that the first arrived at. */
const ROUNDS = 2;

/**
 * Additions from which the refinement starts. A mix has the target's K/S when Σ Δⱼ(scale·Kⱼ − qSⱼ) = qS_pot − K̂_pot
 * at every band: linear in grams, solved with Δ ≥ 0 by NNLS, each row weighted by |dR/dq|/S_mix so that it counts
 * in reflectance. The result is then cut to the stock and shrunk to the room in the pot.
 * Source: Walowit, McCarthy & Berns 1987, anchored on the card.
 */
export function startFromSpectra(problem: Problem, free: readonly number[], paint: PaintCost): Float64Array {
  const { model, goal, bench, work } = problem;
  const { size, k, s } = model.coefficients;
  const { scale, ghost } = model.anchor;
  const bands = model.set.grid.count;
  const rows = goal.spectra.length * bands + 1;
  const matrix = new Float64Array(rows * free.length);
  const right = new Float64Array(rows);
  const potK = new Float64Array(size);
  const potS = new Float64Array(size);
  mix(model.coefficients, bench.pot, potK, potS);

  const cost = paint.deltaE00 * PER_DELTA_E00 * Math.sqrt(bands);
  matrix.fill(cost / sum(bench.pot), (rows - 1) * free.length);

  let additions: Float64Array = new Float64Array(free.length);
  for (let round = 0; round < ROUNDS; round++) {
    let row = 0;
    for (const { geometry, weight, reflectance } of goal.spectra) {
      for (let b = 0; b < bands; b++, row++) {
        const band = geometry * bands + b;
        const internal = Math.min(usableInternal(reflectance[b], model.surfaces[geometry]), WHITEST);
        const q = absorptionRatio(internal);
        const scattering = free.reduce((sum, j, i) => sum + additions[i] * s[j * size + band], potS[band]);
        const rowWeight = (-reflectivitySlope(internal) / scattering) * Math.sqrt(weight);
        free.forEach((j, i) => {
          const place = j * size + band;
          matrix[row * free.length + i] = rowWeight * (scale[band] * k[place] - q * s[place]);
        });
        right[row] = rowWeight * (q * potS[band] - scale[band] * potK[band] - ghost[band]);
      }
    }
    const { x, iterations } = nnls(matrix, right, rows, free.length);
    work.spend(4 * rows * free.length * (iterations + 2));
    additions = x;
  }
  return fitToBench(additions, bench, free);
}

/** Reflectance is held below this: towards white dR/dq grows without bound and the row would outweigh all others. */
const WHITEST = 0.999;

function fitToBench(
  additions: Float64Array,
  { stock, room }: Problem["bench"],
  free: readonly number[],
): Float64Array {
  const cut = additions.map((grams, i) => Math.min(grams, stock[free[i]]));
  const total = sum(cut);
  return total > room ? cut.map((grams) => (grams * room) / total) : cut;
}
