import type { Lab } from "../../colorimetry/lab.js";
import type { Work } from "../../core/createWork.js";
import type { ForwardModel } from "../../forward/forwardModel.js";
import type { Dictionary } from "../../numeric/programmes/dictionary.js";
import {
  findFeasible,
  type LinearProgrammeResult,
  maximise,
} from "../../numeric/programmes/linearProgramme.js";
import type { Direction, Multiplier } from "../records/proof.js";
import { type BandOptics, bandEstimates, estimateFunctionals, type Ranges } from "./bandEstimates.js";
import { type AimBall, axisColourRows, leastDistance } from "./colourRows.js";
import { bandFunctional, type Functional, largestRatio, type Reach } from "./reach.js";

/** A case of a proof: K/S of a band is at most, or at least, `at`. */
export interface Case {
  readonly band: number;
  readonly at: number;
  readonly side: "low" | "high";
}

/** What is the same in every part of a proof. */
export interface Setting {
  readonly model: ForwardModel;
  readonly reach: Reach;
  readonly optics: BandOptics;
  readonly level: number;
  /** One per aim; none for an aim that does not count or is too far away. */
  readonly balls: readonly (AimBall | undefined)[];
  readonly directions: readonly Direction[];
  readonly work: Work;
  /** Most that each direction can be where the measure is 1. */
  readonly most: readonly number[];
}

/**
 * Rows that every mix within the ranges and within the level satisfies: functional ≤ norm·measure·mean, in the order
 * of a proof. `atLevel` is functional − norm·level·mean, which is ≤ 0.
 */
export interface Rows {
  readonly functionals: readonly Functional[];
  readonly norms: readonly number[];
  readonly atLevel: readonly Functional[];
}

export function createRows(setting: Setting, ranges: Ranges, cases: readonly Case[]): Rows {
  const { model, reach, optics, level, balls, directions, work } = setting;
  work.spend(
    (6 * balls.length + directions.length) *
      (4 * balls.length + reach.columns * (3 * model.set.grid.count + 10)),
  );
  const estimates = bandEstimates(optics, ranges);
  const basis = {
    model,
    reach,
    below: estimateFunctionals(reach, estimates.below),
    above: estimateFunctionals(reach, estimates.above),
  };
  const nothing = new Float64Array(reach.columns);
  const axes = balls.flatMap((ball) =>
    ball ? axisColourRows(basis, ball) : new Array<Functional>(6).fill(nothing),
  );
  const distances = directions.map(({ along }) => {
    const sum = new Float64Array(reach.columns);
    along.forEach((n, i) => {
      const ball = balls[i];
      if (!ball || !isSomewhere(n)) return;
      const row = leastDistance(basis, ball, n);
      for (let c = 0; c < sum.length; c++) sum[c] += row[c];
    });
    return sum;
  });
  const inCase = cases.map(({ band, at, side }) => {
    const absorbs = new Float64Array(reach.columns);
    const scatters = new Float64Array(reach.columns);
    bandFunctional(reach, reach.k, band, absorbs);
    bandFunctional(reach, reach.s, band, scatters);
    const sign = side === "low" ? 1 : -1;
    return absorbs.map((value, c) => sign * (value - at * scatters[c]));
  });
  const functionals = [...inCase, ...axes, ...distances];
  const norms = [...inCase.map(() => 0), ...axes.map(() => 0), ...setting.most];
  const atLevel = functionals.map((f, r) => f.map((value, c) => value - norms[r] * level * reach.mean[c]));
  return { functionals, norms, atLevel };
}

export const isSomewhere = (n: Lab): boolean => n[0] !== 0 || n[1] !== 0 || n[2] !== 0;

/** A corner where the rows hold, to climb from; or multipliers that say that there is none. */
export interface Relaxation {
  readonly scale: Float64Array;
  readonly dictionary?: Dictionary;
  readonly farkas?: readonly Multiplier[];
  readonly rowScale: Float64Array;
}

/**
 * Rows ≤ 0 at the level, or with the measure as one more variable, within stock and room, for additions scaled so that
 * mean = 1. The right-hand sides are loosened by a hair, each by another: the cone's corner at 0 is very degenerate.
 */
export function relax(
  { reach, optics, work }: Setting,
  rows: Rows,
  { isOpen }: { readonly isOpen: boolean },
): Relaxation {
  const { columns, size, k, s, mean, most, room } = reach;
  const scale = new Float64Array(columns);
  for (let c = 0; c < columns; c++) {
    let largest = 0;
    for (let b = 0, at = c * size; b < size; b++, at++) {
      largest = Math.max(largest, s[at], k[at] / (DARK + optics.reference[b]));
    }
    scale[c] = largest > 0 ? 1 / largest : 1;
  }
  const stocked = most.map((_, i) => i).filter((i) => most[i] < room);
  const used = isOpen ? rows.functionals : rows.atLevel;
  const count = used.length + stocked.length + 3;
  const width = columns + (isOpen ? 1 : 0);
  const matrix = new Float64Array(count * width);
  const atMost = new Float64Array(count);
  const rowScale = new Float64Array(count);
  const row = new Float64Array(columns);
  let r = 0;
  const put = (last: number, right: number) => {
    let largest = Math.abs(last);
    for (let c = 0; c < columns; c++) largest = Math.max(largest, Math.abs(row[c]) * scale[c]);
    const by = largest > 0 ? 1 / largest : 0;
    for (let c = 0; c < columns; c++) matrix[r * width + c] = row[c] * scale[c] * by;
    if (isOpen) matrix[r * width + columns] = last * by;
    atMost[r] = right === 0 ? LOOSE * (1 + ((r * 0.618034) % 1)) : right * by;
    rowScale[r] = by;
    r++;
  };
  used.forEach((f, i) => {
    row.set(f);
    put(-rows.norms[i], 0);
  });
  row.fill(1);
  row[0] = -room;
  put(0, 0);
  for (const i of stocked) {
    row.fill(0);
    row[0] = -most[i];
    row[i + 1] = 1;
    put(0, 0);
  }
  row.set(mean);
  put(0, 1);
  for (let c = 0; c < columns; c++) row[c] = -mean[c];
  put(0, -1);
  const pivotSteps = 2 * count * (width + 2);
  const { dictionary, status, multipliers, iterations } = findFeasible(
    matrix,
    atMost,
    width,
    Math.max(0, work.left()) / pivotSteps,
  );
  work.spend((iterations + 3) * pivotSteps);
  if (dictionary) return { scale, rowScale, dictionary };
  if (status !== "infeasible") return { scale, rowScale };
  return { scale, rowScale, farkas: readable(ofRows(multipliers, rowScale, rows)) };
}

/** K/S at which a column counts as dark when columns are scaled. */
const DARK = 0.05;

const LOOSE = 1e-9;

/** The multipliers of the rows; those of stock and room are left out, which are filled greedily instead. */
export function ofRows(multipliers: Float64Array, rowScale: Float64Array, rows: Rows): readonly Multiplier[] {
  const count = rows.functionals.length;
  let largest = 0;
  for (let r = 0; r < count; r++) largest = Math.max(largest, multipliers[r] * rowScale[r]);
  const list: Multiplier[] = [];
  for (let r = 0; r < count; r++) {
    const value = multipliers[r] * rowScale[r];
    if (value > NEGLIGIBLE * largest) list.push([r, value]);
  }
  return list;
}

/** The same in digits that can be written down: any multipliers ≥ 0 are sound. */
export const readable = (multipliers: readonly Multiplier[]): readonly Multiplier[] =>
  multipliers.map(([r, value]) => [r, Number(value.toPrecision(DIGITS))]);

const DIGITS = 6;
const NEGLIGIBLE = 1e-9;

/** numerator − Σ multiplier·(row at the level), into `f`. */
export function lessRows(
  rows: Rows,
  numerator: Functional,
  multipliers: readonly Multiplier[],
  f: Functional,
): void {
  f.set(numerator);
  for (const [r, y] of multipliers) {
    const row = rows.atLevel[r];
    for (let c = 0; c < f.length; c++) f[c] -= y * row[c];
  }
}

/** Whether the rows contradict one another: their sum is above 0 whatever is added. */
export function contradicts(reach: Reach, rows: Rows, multipliers: readonly Multiplier[]): boolean {
  const f = new Float64Array(reach.columns);
  lessRows(rows, f.slice(), multipliers, f);
  return largestRatio(reach, f, reach.mean) < 0;
}

/** The next programme on a dictionary of a relaxation, its pivots counted. */
export function climbFrom(
  { work }: Setting,
  dictionary: Dictionary,
  objective: ArrayLike<number>,
): LinearProgrammeResult {
  const pivotSteps = 2 * dictionary.rows * dictionary.width;
  const answer = maximise(dictionary, objective, Math.max(0, work.left()) / pivotSteps);
  work.spend((answer.iterations + 2) * pivotSteps);
  return answer;
}
