import { ciede2000 } from "../colorimetry/ciede2000.js";
import { deltaE00VectorSlopes } from "../colorimetry/deltaE00Vector.js";
import type { Matrix3 } from "../colorimetry/lab.js";
import { sum } from "../core/sum.js";
import type { Gradient } from "../forward/differentiate.js";
import type { Evaluation } from "../forward/evaluate.js";
import type { ForwardModel } from "../forward/forwardModel.js";
import { lowerFactor } from "../numeric/linear/lowerFactor.js";
import { type Goal, labAt, type SpectralAim } from "./goal.js";
import type { Problem } from "./problem.js";

/**
 * Weight of the spectral tie-break: one per cent RMS of reflectance counts as 0.01 ΔE00. Colour alone leaves the
 * amounts open as soon as there are more toners than colours to reach; among mixes of equal colour this prefers
 * the nearest spectrum, which also holds under other lights. It costs at most a few hundredths of ΔE00.
 */
const SPECTRAL_WEIGHT = 1e-4;

/**
 * Cost of added paint, in ΔE00 for as much again as the pot holds: of the sum of what is added, or of each toner by
 * itself. The latter also settles amounts that colour leaves open where paint might be taken out.
 */
export interface PaintCost {
  readonly deltaE00: number;
  readonly of: "sum" | "each";
}

export const PAINT_IS_FREE: PaintCost = { deltaE00: 0, of: "sum" };

/** A term of the objective that depends on the mix: residuals whose squares add up to its part of the loss, in ΔE00². */
export interface Term {
  readonly rows: number;
  /** What no mix takes away. */
  readonly constant: number;
  /** Residuals at a mix into `out` from `row` on, with a weight for every aim; keeps what `slopes` needs. */
  look(at: Evaluation, weights: ArrayLike<number>, out: Float64Array, row: number): void;
  /** ∂residual/∂g of one toner at the mix last looked at, into `out` from `from` on. */
  slopes(by: Gradient, toner: number, out: Float64Array, from: number): void;
  /** Sum of the squares alone. */
  squares(at: Evaluation, weights: ArrayLike<number>): number;
}

/** All terms: those of the mix, and one quadratic form in the pours for what depends on them alone. */
export interface Terms {
  readonly ofMix: readonly Term[];
  /** ΔE00 of every aim at the mix last looked at. */
  readonly differences: Float64Array;
  /** Paint and risk: ΔᵀPΔ in ΔE00², row-major over all toners. */
  readonly ofPours: Float64Array;
}

/** The loss, written once: colour + spectral tie-break + cost of paint + doubt of the pours. */
export function createTerms(problem: Problem, paint: PaintCost): Terms {
  const { model, goal } = problem;
  const differences = new Float64Array(goal.aims.length);
  return {
    differences,
    ofMix: [
      colourTerm(model, goal, differences),
      ...meanSpectra(goal.spectra).map((spectrum) => spectrumTerm(model, spectrum)),
    ],
    ofPours: formOfPours(problem, paint),
  };
}

/** Paint and risk: P of ΔᵀPΔ in ΔE00², row-major over all toners. */
export function formOfPours({ bench: { pot }, risk }: Problem, { deltaE00, of }: PaintCost): Float64Array {
  const square = (deltaE00 / sum(pot)) ** 2;
  return risk.map((value, i) => value + (of === "sum" || i % (pot.length + 1) === 0 ? square : 0));
}

/** ΔᵀPΔ of additions in the order of the toner set. */
export function costOfPours(form: Float64Array, additions: ArrayLike<number>): number {
  const toners = additions.length;
  let sum = 0;
  for (let j = 0; j < toners; j++) {
    if (additions[j] === 0) continue;
    let along = 0;
    for (let i = 0; i < toners; i++) along += form[j * toners + i] * additions[i];
    sum += along * additions[j];
  }
  return sum;
}

/** Rows F with FᵀF = P, for solvers that take residuals: row r over the toners at `[r·n + j]`. */
export function rowsOfPours(form: Float64Array): Float64Array {
  const toners = Math.sqrt(form.length);
  const lower = lowerFactor(form, toners);
  return lower.map((_, i) => lower[(i % toners) * toners + Math.floor(i / toners)]);
}

/** √w·v for every aim, v the vector of `deltaE00Vector`, whose length is true CIEDE2000. */
function colourTerm({ geometries, lights }: ForwardModel, { aims }: Goal, differences: Float64Array): Term {
  const columns = 3 * geometries.length * lights.length;
  const roots = new Float64Array(aims.length);
  const bent: Matrix3[] = [];
  return {
    rows: 3 * aims.length,
    constant: 0,
    look(at, weights, out, row) {
      for (let a = 0; a < aims.length; a++) {
        const { lab, metric, place } = aims[a];
        const { vector, slopes } = deltaE00VectorSlopes(lab, metric, labAt(at.lab, place));
        const root = Math.sqrt(weights[a]);
        roots[a] = root;
        bent[a] = slopes;
        differences[a] = Math.sqrt(vector[0] * vector[0] + vector[1] * vector[1] + vector[2] * vector[2]);
        for (let axis = 0; axis < 3; axis++) out[row + 3 * a + axis] = root * vector[axis];
      }
    },
    slopes({ lab }, toner, out, from) {
      for (let a = 0; a < aims.length; a++) {
        const at = toner * columns + aims[a].place;
        const root = roots[a];
        for (let axis = 0; axis < 3; axis++) {
          const by = bent[a][axis];
          out[from + 3 * a + axis] = root * (by[0] * lab[at] + by[1] * lab[at + 1] + by[2] * lab[at + 2]);
        }
      }
    },
    squares(at, weights) {
      let sum = 0;
      for (let a = 0; a < aims.length; a++) {
        const { lab, place } = aims[a];
        if (weights[a] > 0) sum += weights[a] * ciede2000(lab, labAt(at.lab, place)) ** 2;
      }
      return sum;
    },
  };
}

/** √(w·ε/bands)·100·(R − R̄) of one geometry. */
function spectrumTerm(
  { set, coefficients: { size } }: ForwardModel,
  { geometry, weight, reflectance, rest }: MeanSpectrum,
): Term {
  const bands = set.grid.count;
  const scale = 100 * Math.sqrt((SPECTRAL_WEIGHT * weight) / bands);
  const first = geometry * bands;
  return {
    rows: bands,
    constant: scale * scale * rest,
    look(at, _, out, row) {
      for (let b = 0; b < bands; b++) out[row + b] = scale * (at.reflectance[first + b] - reflectance[b]);
    },
    slopes({ reflectance: by }, toner, out, from) {
      const at = toner * size + first;
      for (let b = 0; b < bands; b++) out[from + b] = scale * by[at + b];
    },
    squares(at) {
      let sum = rest;
      for (let b = 0; b < bands; b++) {
        const off = at.reflectance[first + b] - reflectance[b];
        sum += off * off;
      }
      return scale * scale * sum;
    },
  };
}

interface MeanSpectrum extends Omit<SpectralAim, "isInferred"> {
  readonly rest: number;
}

/**
 * Per geometry the weighted mean of the targets' spectra: Σ w(R − Rₜ)² = Σw·((R − R̄)² + rest), with the variance of
 * the targets, summed over the bands, as the rest.
 */
function meanSpectra(spectra: readonly SpectralAim[]): readonly MeanSpectrum[] {
  return [...new Set(spectra.map(({ geometry }) => geometry))].map((geometry) => {
    const own = spectra.filter((one) => one.geometry === geometry);
    const weight = own.reduce((sum, one) => sum + one.weight, 0);
    const share = (one: SpectralAim) => (weight > 0 ? one.weight / weight : 0);
    const reflectance = own[0].reflectance.map((_, b) =>
      own.reduce((sum, one) => sum + share(one) * one.reflectance[b], 0),
    );
    const rest = own.reduce(
      (sum, one) =>
        sum + share(one) * one.reflectance.reduce((squares, r, b) => squares + (r - reflectance[b]) ** 2, 0),
      0,
    );
    return { target: own[0].target, geometry, weight, reflectance, rest };
  });
}
