import { applyReflector, factorise, makeReflector, solveUpper } from "../linear/householder.js";

/** Equations matrix·x ≈ rightHandSide; the matrix row-major. */
export interface LinearSystem {
  readonly matrix: Float64Array;
  readonly rightHandSide: Float64Array;
  readonly rows: number;
  readonly columns: number;
}

export interface EqualityLeastSquaresResult {
  readonly x: Float64Array;
  /** μ of Eᵀ(Ex − f) = Aᵀμ: ½‖Ex − f‖² rises by μᵢ for every unit by which bᵢ is raised. */
  readonly multipliers: Float64Array;
}

/** A row kept at √ε leaves the direction of the next uncertain by ε/√ε, which is no more than that. */
const DEPENDENCE = Math.sqrt(Number.EPSILON);

/**
 * Minimises ‖Ex − f‖ subject to Ax = b, by the null space of A: A·Q = [L 0] settles the first entries of Qᵀx, and
 * least squares in E·Q the others. The equalities hold to rounding, however ill-conditioned E is, which
 * must only have full rank on the null space of A.
 * @param matrix E, row-major, rows × columns; it is overwritten by E·Q
 * @param equalities A, row-major, one row for each of `values` (b), at most `columns`; overwritten
 * @returns `undefined` if a row of A depends on those before it: |lₖₖ| ≤ √ε·‖aₖ‖
 * Source: Lawson & Hanson (1974) ch. 20.
 */
export function equalityLeastSquares(
  { matrix, rightHandSide, rows, columns }: LinearSystem,
  equalities: Float64Array,
  values: ArrayLike<number>,
): EqualityLeastSquaresResult | undefined {
  const count = values.length;
  const free = columns - count;
  const x = new Float64Array(columns);

  const edge = new Float64Array(count);
  for (let k = 0; k < count; k++) {
    const corner = k * columns + k;
    const length = columns - k;
    edge[k] = makeReflector(equalities, corner, 1, length);
    for (let i = k + 1; i < count; i++) {
      applyReflector({ values: equalities, start: corner, stride: 1 }, length, {
        values: equalities,
        start: i * columns + k,
        stride: 1,
      });
    }
    for (let i = 0; i < rows; i++)
      applyReflector({ values: equalities, start: corner, stride: 1 }, length, {
        values: matrix,
        start: i * columns + k,
        stride: 1,
      });
    let rest = values[k];
    let squares = 0;
    for (let j = 0; j < k; j++) {
      rest -= equalities[k * columns + j] * x[j];
      squares += equalities[k * columns + j] ** 2;
    }
    if (Math.abs(edge[k]) <= DEPENDENCE * Math.sqrt(squares + edge[k] ** 2)) return undefined;
    x[k] = rest / edge[k];
  }

  const freeMatrix = new Float64Array(rows * free);
  const freeTarget = new Float64Array(rows);
  for (let i = 0; i < rows; i++) {
    const row = i * columns;
    freeTarget[i] = rightHandSide[i];
    for (let j = 0; j < count; j++) freeTarget[i] -= matrix[row + j] * x[j];
    for (let j = 0; j < free; j++) freeMatrix[i * free + j] = matrix[row + count + j];
  }
  const diagonal = new Float64Array(free);
  factorise(freeMatrix, rows, free, diagonal, freeTarget);
  solveUpper(freeMatrix, free, diagonal, freeTarget);
  for (let j = 0; j < free; j++) x[count + j] = freeTarget[j];

  // In the coordinates of Q the first entries of the gradient are Lᵀμ, the others zero.
  const multipliers = new Float64Array(count);
  for (let i = 0; i < rows; i++) {
    let residual = -rightHandSide[i];
    for (let j = 0; j < columns; j++) residual += matrix[i * columns + j] * x[j];
    for (let k = 0; k < count; k++) multipliers[k] += matrix[i * columns + k] * residual;
  }
  for (let k = count - 1; k >= 0; k--) {
    multipliers[k] /= edge[k];
    for (let j = 0; j < k; j++) multipliers[j] -= equalities[k * columns + j] * multipliers[k];
  }

  for (let k = count - 1; k >= 0; k--) {
    applyReflector({ values: equalities, start: k * columns + k, stride: 1 }, columns - k, {
      values: x,
      start: k,
      stride: 1,
    });
  }
  return { x, multipliers };
}
