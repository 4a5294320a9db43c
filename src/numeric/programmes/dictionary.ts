/**
 * A dictionary of the programme (Chvátal 1983): row i says basic[i] = data[i][n] − Σ data[i][j]·free[j]. Variables
 * 0…n−1 are x, n + i is the slack of constraint i, n + m the artificial one of phase 1.
 */
export interface Dictionary {
  readonly rows: number;
  /** Columns of A. */
  readonly columns: number;
  /** One more than `columns` while the artificial variable is in play, and one for the right-hand side. */
  readonly width: number;
  readonly data: Float64Array;
  readonly basic: Int32Array;
  readonly free: Int32Array;
  /** Slopes of the objective along the free variables; in the last place its value. */
  readonly slopes: Float64Array;
  /** What `maximise` answers with, written over by the next call: many programmes share one dictionary. */
  readonly x: Float64Array;
  readonly ray: Float64Array;
  readonly multipliers: Float64Array;
}

/** A slope, a pivot, a shortfall less than this share of the largest entry of A, c or b is rounding. */
export const TOLERANCE = 1e-10;

/** After this many steps without gain Bland's rule takes over, which cannot cycle. */
const STALL = 30;

/** The dictionary with all slacks basic: a corner where b ≥ 0. */
export function createDictionary(
  matrix: Float64Array,
  atMost: Float64Array,
  columns: number,
  width: number,
): Dictionary {
  const rows = atMost.length;
  const data = new Float64Array(rows * width);
  for (let i = 0; i < rows; i++) {
    data.set(matrix.subarray(i * columns, (i + 1) * columns), i * width);
    data[(i + 1) * width - 1] = atMost[i];
  }
  return {
    rows,
    columns,
    width,
    data,
    basic: Int32Array.from({ length: rows }, (_, i) => columns + i),
    free: Int32Array.from({ length: width - 1 }, (_, j) => j),
    slopes: new Float64Array(width),
    x: new Float64Array(columns),
    ray: new Float64Array(columns),
    multipliers: new Float64Array(rows),
  };
}

/** Simplex steps until no free variable improves the objective, at most `mostIterations`. */
export function climb(
  dictionary: Dictionary,
  mostIterations = Number.POSITIVE_INFINITY,
): {
  readonly status: "optimal" | "unbounded" | "iteration-limit";
  readonly iterations: number;
  readonly entering: number;
} {
  const { rows, width, data, basic, slopes } = dictionary;
  const last = width - 1;
  let steepest = 0;
  for (let j = 0; j < last; j++) steepest = Math.max(steepest, Math.abs(slopes[j]));
  const least = TOLERANCE * steepest;
  const limit = Math.min(mostIterations, 200 + 50 * (rows + width));
  let stalled = 0;
  for (let iterations = 0; iterations < limit; iterations++) {
    const entering = enteringColumn(dictionary, least, stalled > STALL);
    if (entering < 0) return { status: "optimal", iterations, entering };
    let leaving = -1;
    let reach = Number.POSITIVE_INFINITY;
    for (let i = 0; i < rows; i++) {
      const fall = data[i * width + entering];
      if (fall <= TOLERANCE) continue;
      const ratio = Math.max(0, data[i * width + last]) / fall;
      const tie = ratio === reach && leaving >= 0;
      if (ratio < reach || (tie && basic[i] < basic[leaving])) {
        reach = ratio;
        leaving = i;
      }
    }
    if (leaving < 0) return { status: "unbounded", iterations, entering };
    stalled = reach > 0 ? 0 : stalled + 1;
    pivot(dictionary, leaving, entering);
  }
  return { status: "iteration-limit", iterations: limit, entering: -1 };
}

function enteringColumn({ width, free, slopes }: Dictionary, least: number, isStalled: boolean): number {
  let entering = -1;
  for (let j = 0; j < width - 1; j++) {
    if (!(slopes[j] > least)) continue;
    if (entering < 0 || (isStalled ? free[j] < free[entering] : slopes[j] > slopes[entering])) entering = j;
  }
  return entering;
}

/** The basic variable of a row and the free variable of a column change places. */
export function pivot(
  { rows, width, data, basic, free, slopes }: Dictionary,
  leaving: number,
  entering: number,
): void {
  const row = leaving * width;
  const inverse = 1 / data[row + entering];
  for (let j = 0; j < width; j++) data[row + j] *= inverse;
  data[row + entering] = inverse;
  for (let i = 0; i < rows; i++) {
    const place = i * width;
    const factor = data[place + entering];
    if (i === leaving || factor === 0) continue;
    data[place + entering] = 0;
    for (let j = 0; j < width; j++) data[place + j] -= factor * data[row + j];
  }
  const slope = slopes[entering];
  slopes[entering] = 0;
  for (let j = 0; j < width - 1; j++) slopes[j] -= slope * data[row + j];
  slopes[width - 1] += slope * data[row + width - 1];
  const out = basic[leaving];
  basic[leaving] = free[entering];
  free[entering] = out;
}

/** y of a constraint is the fall of the objective along its slack. */
export function readMultipliers(
  { rows, columns, free, slopes }: Dictionary,
  multipliers: Float64Array,
): void {
  for (let j = 0; j < free.length; j++) {
    const i = free[j] - columns;
    if (i >= 0 && i < rows) multipliers[i] = Math.max(0, -slopes[j]);
  }
}
