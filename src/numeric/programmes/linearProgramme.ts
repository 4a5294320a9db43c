import { checkMatrix } from "../linear/checkMatrix.js";
import { climb, createDictionary, type Dictionary, pivot, readMultipliers, TOLERANCE } from "./dictionary.js";

/** Maximise objective·x subject to Ax ≤ b, x ≥ 0. */
export interface LinearProgramme {
  readonly objective: ArrayLike<number>;
  /** A, row-major: for every constraint a row of as many entries as x. */
  readonly matrix: Float64Array;
  /** b, of any sign. */
  readonly atMost: Float64Array;
}

/**
 * `optimal`: yᵀA ≥ c, y ≥ 0 and yᵀb = c·x prove that no x does better. `infeasible`: yᵀA ≥ 0, y ≥ 0 and yᵀb < 0
 * (Farkas) prove that there is none. `unbounded`: along `ray` ≥ 0, A·ray ≤ 0 and c·ray > 0.
 */
export interface LinearProgrammeResult {
  readonly status: "optimal" | "infeasible" | "unbounded" | "iteration-limit";
  readonly x: Float64Array;
  /** objective·x; −∞ when infeasible, ∞ when unbounded. */
  readonly value: number;
  /** y, one per constraint. */
  readonly multipliers: Float64Array;
  readonly ray: Float64Array;
  readonly iterations: number;
}

/**
 * Two-phase simplex method on a dense dictionary: largest slope first, Bland's rule where it stalls.
 * For programmes of tens of variables; entries should be of like size (within 1e6 or so), since tolerances are 1e−10
 * of the largest. Certified on published problems, degenerate and cycling ones among them.
 * Throws `wrong-length`, `not-finite`. Source: Dantzig 1963; Bland 1977; Chvátal 1983.
 */
export function linearProgramme({ objective, matrix, atMost }: LinearProgramme): LinearProgrammeResult {
  const columns = objective.length;
  checkMatrix(matrix, atMost.length, columns, "matrix");
  checkMatrix(atMost, atMost.length, 1, "atMost");
  checkMatrix(objective, columns, 1, "objective");
  const { dictionary, ...failure } = findFeasible(matrix, atMost, columns);
  if (dictionary) return maximise(dictionary, objective);
  return {
    x: new Float64Array(columns),
    value: failure.status === "infeasible" ? Number.NEGATIVE_INFINITY : Number.NaN,
    ray: new Float64Array(columns),
    ...failure,
  };
}

/** A dictionary at a feasible corner, for one or many objectives; or why there is none. */
export interface FeasibleStart {
  readonly dictionary?: Dictionary;
  readonly status: LinearProgrammeResult["status"];
  readonly multipliers: Float64Array;
  readonly iterations: number;
}

/** Phase 1: makes the largest shortfall of any constraint as small as it can be. */
export function findFeasible(
  matrix: Float64Array,
  atMost: Float64Array,
  columns: number,
  mostIterations?: number,
): FeasibleStart {
  const rows = atMost.length;
  const multipliers = new Float64Array(rows);
  const phase1 = createDictionary(matrix, atMost, columns, columns + 2);
  let worst = 0;
  for (let i = 1; i < rows; i++) if (atMost[i] < atMost[worst]) worst = i;
  if (rows === 0 || atMost[worst] >= 0) {
    return {
      dictionary: createDictionary(matrix, atMost, columns, columns + 1),
      status: "optimal",
      multipliers,
      iterations: 0,
    };
  }
  const artificial = columns + rows;
  phase1.free[columns] = artificial;
  for (let i = 0; i < rows; i++) phase1.data[i * phase1.width + columns] = -1;
  phase1.slopes[columns] = -1;
  pivot(phase1, worst, columns);
  const { status, iterations } = climb(phase1, mostIterations);
  readMultipliers(phase1, multipliers);
  if (status !== "optimal") return { status: "iteration-limit", multipliers, iterations };
  const size = atMost.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  if (phase1.slopes[columns + 1] < -TOLERANCE * size)
    return { status: "infeasible", multipliers, iterations };
  return { dictionary: withoutArtificial(phase1), status, multipliers, iterations };
}

/** Phase 2, from wherever the dictionary stands; it is left at the corner found, ready for the next objective. */
export function maximise(
  dictionary: Dictionary,
  objective: ArrayLike<number>,
  mostIterations?: number,
): LinearProgrammeResult {
  const { rows, columns, width, data, basic, free, slopes } = dictionary;
  slopes.fill(0);
  for (let j = 0; j < columns; j++) if (free[j] < columns) slopes[j] = objective[free[j]];
  for (let i = 0; i < rows; i++) {
    const price = basic[i] < columns ? objective[basic[i]] : 0;
    if (price === 0) continue;
    const row = i * width;
    for (let j = 0; j < columns; j++) slopes[j] -= price * data[row + j];
    slopes[columns] += price * data[row + columns];
  }
  const { status, iterations, entering } = climb(dictionary, mostIterations);
  const { x, ray, multipliers } = dictionary;
  x.fill(0);
  ray.fill(0);
  multipliers.fill(0);
  for (let i = 0; i < rows; i++) {
    if (basic[i] >= columns) continue;
    x[basic[i]] = data[i * width + columns];
    if (entering >= 0) ray[basic[i]] = -data[i * width + entering];
  }
  if (entering >= 0 && free[entering] < columns) ray[free[entering]] = 1;
  if (status === "optimal") readMultipliers(dictionary, multipliers);
  const value = status === "unbounded" ? Number.POSITIVE_INFINITY : slopes[columns];
  return { status, x, value, multipliers, ray, iterations };
}

/** The same corner without the artificial variable, which is zero there. */
function withoutArtificial(phase1: Dictionary): Dictionary {
  const { rows, columns, width, data, basic, free } = phase1;
  const artificial = columns + rows;
  const held = basic.indexOf(artificial);
  if (held >= 0) {
    let largest = 0;
    for (let j = 1; j < width - 1; j++) {
      if (Math.abs(data[held * width + j]) > Math.abs(data[held * width + largest])) largest = j;
    }
    pivot(phase1, held, largest);
  }
  const out = free.indexOf(artificial);
  const narrow = new Float64Array(rows * (width - 1));
  for (let i = 0, to = 0; i < rows; i++) {
    for (let j = 0; j < width; j++) if (j !== out) narrow[to++] = data[i * width + j];
  }
  return {
    ...phase1,
    width: width - 1,
    data: narrow,
    free: free.filter((variable) => variable !== artificial),
    slopes: new Float64Array(width - 1),
  };
}
