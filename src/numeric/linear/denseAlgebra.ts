import { CholeskyDecomposition, Matrix, SingularValueDecomposition } from "ml-matrix";
import { InputError } from "../../core/InputError.js";
import { checkMatrix } from "./checkMatrix.js";

/*
 * The only file that knows ml-matrix. Matrices are row-major; nothing of ml-matrix leaves it. Its own judgements of
 * rank and of symmetry test for exact equality, so both are made here, as inequalities.
 */

/**
 * The singular values, largest first: min(rows, columns) of them.
 * Throws `wrong-length`, `not-finite`.
 */
export function singularValues(matrix: Float64Array, rows: number, columns: number): Float64Array {
  return Float64Array.from(decompose(matrix, rows, columns).diagonal);
}

/**
 * How many singular values are > tolerance.
 * @param tolerance default max(rows, columns)·ε·σ_max: what rounding of the largest entries can make of a zero
 */
export function numericalRank(
  singular: ArrayLike<number>,
  rows: number,
  columns: number,
  tolerance: number = Math.max(rows, columns) * Number.EPSILON * singular[0],
): number {
  let rank = 0;
  while (rank < singular.length && singular[rank] > tolerance) rank++;
  return rank;
}

/** σ_max/σ_min; infinite for a singular matrix. `singular` as from `singularValues`. */
export function conditionNumber(singular: ArrayLike<number>): number {
  const smallest = singular[singular.length - 1];
  return smallest > 0 ? singular[0] / smallest : Number.POSITIVE_INFINITY;
}

export interface LeastSquaresSolution {
  readonly x: Float64Array;
  readonly rank: number;
  readonly condition: number;
}

/**
 * The shortest of all x that minimise ‖Ax − b‖, by the singular values that `numericalRank` counts.
 * Throws `wrong-length`, `not-finite`.
 * Source: Golub & Van Loan (2013) §5.5.
 */
export function solveLeastSquares(
  matrix: Float64Array,
  rightHandSide: Float64Array,
  rows: number,
  columns: number,
): LeastSquaresSolution {
  checkMatrix(rightHandSide, rows, 1, "rightHandSide");
  const { diagonal, leftSingularVectors, rightSingularVectors } = decompose(matrix, rows, columns);
  const rank = numericalRank(diagonal, rows, columns);
  const x = new Float64Array(columns);
  for (let k = 0; k < rank; k++) {
    let coefficient = 0;
    for (let i = 0; i < rows; i++) coefficient += leftSingularVectors.get(i, k) * rightHandSide[i];
    coefficient /= diagonal[k];
    for (let j = 0; j < columns; j++) x[j] += coefficient * rightSingularVectors.get(j, k);
  }
  return { x, rank, condition: conditionNumber(diagonal) };
}

/**
 * Solves A·X = B for a symmetric positive definite A (of which (A + Aᵀ)/2 is used); B = I gives the inverse.
 * @param matrix A, size × size; @param rightHandSides B, size × count; @returns X, row-major, size × count
 * Throws `wrong-length`, `not-finite`; `out-of-range` for an A that is not positive definite: some squared pivot of
 * its Cholesky factor is ≤ size·ε·(the diagonal entry it is left of).
 */
export function choleskySolve(
  matrix: Float64Array,
  rightHandSides: Float64Array,
  size: number,
  count = 1,
): Float64Array {
  checkMatrix(rightHandSides, size, count, "rightHandSides");
  const cholesky = choleskyFactor(matrix, size);
  const solution = cholesky.solve(rowMajor(rightHandSides, size, count));
  return Float64Array.from(solution.to1DArray());
}

/**
 * The lower triangle L, row-major, with L·Lᵀ = A for a symmetric positive definite A (of which (A + Aᵀ)/2 is used).
 * Throws as `choleskySolve` does.
 */
export function choleskyLower(matrix: Float64Array, size: number): Float64Array {
  return Float64Array.from(choleskyFactor(matrix, size).lowerTriangularMatrix.to1DArray());
}

function choleskyFactor(matrix: Float64Array, size: number): CholeskyDecomposition {
  checkMatrix(matrix, size, size, "matrix");
  const symmetric = new Matrix(size, size);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < size; j++) symmetric.set(i, j, (matrix[i * size + j] + matrix[j * size + i]) / 2);
  }
  const cholesky = new CholeskyDecomposition(symmetric);
  const factor = cholesky.lowerTriangularMatrix;
  for (let k = 0; k < size; k++) {
    if (!(factor.get(k, k) ** 2 > size * Number.EPSILON * matrix[k * size + k])) {
      throw new InputError("out-of-range", "matrix", `not positive definite: pivot ${k} vanishes`);
    }
  }
  return cholesky;
}

function decompose(matrix: Float64Array, rows: number, columns: number): SingularValueDecomposition {
  checkMatrix(matrix, rows, columns, "matrix");
  if (matrix.length === 0) throw new InputError("wrong-length", "matrix", "the matrix is empty");
  return new SingularValueDecomposition(rowMajor(matrix, rows, columns), { autoTranspose: true });
}

function rowMajor(values: Float64Array, rows: number, columns: number): Matrix {
  const matrix = new Matrix(rows, columns);
  for (let i = 0; i < rows; i++) {
    for (let j = 0; j < columns; j++) matrix.set(i, j, values[i * columns + j]);
  }
  return matrix;
}
