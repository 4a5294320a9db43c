import { ciede2000 } from "../../colorimetry/ciede2000.js";
import { deltaE00VectorSlopes } from "../../colorimetry/deltaE00Vector.js";
import { createGradient, differentiate } from "../../prediction/differentiate.js";
import { createEvaluation, evaluate } from "../../prediction/evaluate.js";
import { evaluationSteps, gradientSteps } from "../../prediction/evaluationSteps.js";
import { labAt, type SpectralAim } from "../goal.js";
import { type PaintCost, SPECTRAL_WEIGHT } from "../objective.js";
import type { Problem } from "../problem.js";

/** The objective near some additions of some toners: ‖r + J·d‖² = squares − 2·sideᵀd + dᵀ·gram·d. */
export interface SubsetModel {
  readonly toners: readonly number[];
  readonly amounts: Float64Array;
  readonly squares: number;
  /** ΔE00 of every aim. */
  readonly differences: Float64Array;
  /** Row-major, one row and column per toner. */
  readonly gram: Float64Array;
  readonly side: Float64Array;
}

export interface SubsetModels {
  /**
   * The model at `amounts` of `toners`, with a weight per aim in place of the goal's, written into a room of the same
   * number of toners where one is given.
   */
  at(
    toners: readonly number[],
    amounts: ArrayLike<number>,
    weights: ArrayLike<number>,
    room?: Room,
  ): SubsetModel;
  /** Its squares alone. */
  squaresAt(toners: readonly number[], amounts: ArrayLike<number>, weights: ArrayLike<number>): number;
}

/** A model to be written over. */
export type Room = { -readonly [Key in keyof SubsetModel]: SubsetModel[Key] };

/**
 * The residuals of `createObjective` as normal equations, for many small sets of toners one after the other: what is
 * needed to search through subsets, where no system is larger than a handful. Rooms for the arithmetic are made once.
 */
export function createSubsetModels(problem: Problem, paint: PaintCost): SubsetModels {
  const { model, goal, bench, work } = problem;
  const { size } = model.coefficients;
  const bands = model.set.grid.count;
  const columns = 3 * model.geometries.length * model.lights.length;
  const grams = Float64Array.from(bench.pot);
  const at = createEvaluation(model);
  const slopes = createGradient(model);
  const spectra = meanSpectra(goal.spectra);
  const missed = new Float64Array(bands);
  const evaluationOf = evaluationSteps(model) + AIM_STEPS * goal.aims.length;
  const modelOf = (width: number) =>
    gradientSteps(model, width) + width * (width + 2) * (5 * goal.aims.length + bands * spectra.length);
  const perSquare = (SPECTRAL_WEIGHT * 1e4) / bands;
  const perGram = paint.deltaE00 / bench.pot.reduce((sum, amount) => sum + amount, 0);

  const moveTo = (toners: readonly number[], amounts: ArrayLike<number>): void => {
    for (let i = 0; i < toners.length; i++) grams[toners[i]] += amounts[i];
    evaluate(model, grams, at);
    for (let i = 0; i < toners.length; i++) grams[toners[i]] = bench.pot[toners[i]];
  };
  /** Leaves in `missed` what the reflectance is off, and returns its squares. */
  const missSpectrum = ({ geometry, reflectance, rest }: MeanSpectrum): number => {
    let sum = rest;
    for (let b = 0; b < bands; b++) {
      missed[b] = at.reflectance[geometry * bands + b] - reflectance[b];
      sum += missed[b] * missed[b];
    }
    return sum;
  };

  return {
    at(toners, amounts, weights, room = createRoom(toners.length, goal.aims.length)) {
      const width = toners.length;
      const { gram, side, differences } = room;
      work.spend(evaluationOf + modelOf(width));
      moveTo(toners, amounts);
      differentiate(model, at, slopes, toners);
      gram.fill(0);
      side.fill(0);
      let squares = 0;

      for (let aim = 0; aim < goal.aims.length; aim++) {
        const { lab, metric, place } = goal.aims[aim];
        const weight = weights[aim];
        const { vector, slopes: by } = deltaE00VectorSlopes(lab, metric, labAt(at.lab, place));
        const square = vector[0] * vector[0] + vector[1] * vector[1] + vector[2] * vector[2];
        differences[aim] = Math.sqrt(square);
        if (weight === 0) continue;
        squares += weight * square;
        for (let axis = 0; axis < 3; axis++) {
          const [mL, mA, mB] = by[axis];
          for (let c = 0; c < width; c++) {
            const value = along(slopes.lab, toners[c] * columns + place, mL, mA, mB);
            side[c] -= weight * value * vector[axis];
            for (let d = 0; d <= c; d++) {
              gram[c * width + d] +=
                weight * value * along(slopes.lab, toners[d] * columns + place, mL, mA, mB);
            }
          }
        }
      }

      for (const spectrum of spectra) {
        const scale = perSquare * spectrum.weight;
        const from = spectrum.geometry * bands;
        squares += scale * missSpectrum(spectrum);
        for (let c = 0; c < width; c++) {
          const first = toners[c] * size + from;
          side[c] -= scale * product(slopes.reflectance, first, missed, 0, bands);
          for (let d = 0; d <= c; d++) {
            const second = toners[d] * size + from;
            gram[c * width + d] +=
              scale * product(slopes.reflectance, first, slopes.reflectance, second, bands);
          }
        }
      }

      if (perGram > 0) {
        const square = perGram * perGram;
        let sum = 0;
        for (let c = 0; c < width; c++) sum += amounts[c];
        for (let c = 0; c < width; c++) {
          const counted = paint.of === "sum" ? sum : amounts[c];
          squares += square * counted * amounts[c];
          side[c] -= square * counted;
          for (let d = 0; d <= c; d++) if (paint.of === "sum" || c === d) gram[c * width + d] += square;
        }
      }
      for (let c = 0; c < width; c++) {
        room.amounts[c] = amounts[c];
        for (let d = 0; d < c; d++) gram[d * width + c] = gram[c * width + d];
      }
      room.toners = toners;
      room.squares = squares;
      return room;
    },

    squaresAt(toners, amounts, weights) {
      work.spend(evaluationOf);
      moveTo(toners, amounts);
      let squares = 0;
      for (let aim = 0; aim < goal.aims.length; aim++) {
        const { lab, place } = goal.aims[aim];
        if (weights[aim] > 0) squares += weights[aim] * ciede2000(lab, labAt(at.lab, place)) ** 2;
      }
      for (const spectrum of spectra) squares += perSquare * spectrum.weight * missSpectrum(spectrum);
      if (perGram > 0) {
        let sum = 0;
        for (let c = 0; c < toners.length; c++) sum += amounts[c];
        for (let c = 0; c < toners.length; c++) {
          squares += perGram * perGram * (paint.of === "sum" ? sum : amounts[c]) * amounts[c];
        }
      }
      return squares;
    },
  };
}

/** Steps of work in one colour difference. */
const AIM_STEPS = 150;

/** Room for a model of so many toners. */
export function createRoom(toners: number, aims: number): Room {
  return {
    toners: [],
    amounts: new Float64Array(toners),
    squares: Number.NaN,
    differences: new Float64Array(aims),
    gram: new Float64Array(toners * toners),
    side: new Float64Array(toners),
  };
}

/** A model that stays when its room is used again. */
export function kept({ toners, amounts, squares, differences, gram, side }: SubsetModel): SubsetModel {
  return {
    toners,
    amounts: amounts.slice(),
    squares,
    differences: differences.slice(),
    gram: gram.slice(),
    side: side.slice(),
  };
}

interface MeanSpectrum extends SpectralAim {
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

function along(lab: Float64Array, from: number, mL: number, mA: number, mB: number): number {
  return mL * lab[from] + mA * lab[from + 1] + mB * lab[from + 2];
}

function product(a: Float64Array, from: number, b: Float64Array, first: number, length: number): number {
  let sum = 0;
  for (let i = 0; i < length; i++) sum += a[from + i] * b[first + i];
  return sum;
}
