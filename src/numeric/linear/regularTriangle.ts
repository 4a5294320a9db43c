import { factorise } from "./householder.js";

/** min ‖Ex − f‖ as min ‖Rz − target‖ with x = scale ∘ z; R is square, upper triangular and regular. */
export interface RegularTriangle {
  /** R, row-major, zeros below the diagonal. */
  readonly factor: Float64Array;
  readonly diagonal: Float64Array;
  readonly target: Float64Array;
  /** One over the length of each column of E (1 for a column of zeros), so that no unit of x matters. */
  readonly scale: Float64Array;
}

/** √ε: lighter, and the noise ε that stands for a zero in R would be divided by less than itself. */
const TIKHONOV = Math.sqrt(Number.EPSILON);

/**
 * QR of E with its columns brought to unit length. If |Rₖₖ| ≤ max(rows, columns)·ε·maxᵢ|Rᵢᵢ| for some k, E is taken
 * to be of deficient rank and gets the rows √ε·I (Tikhonov): of all minimisers that picks the one with short z.
 * @param matrix E, row-major, rows × columns; @param rightHandSide f
 */
export function regularTriangle(
  matrix: Float64Array,
  rightHandSide: Float64Array,
  rows: number,
  columns: number,
): RegularTriangle {
  const scale = new Float64Array(columns);
  for (let i = 0, k = 0; i < rows; i++) {
    for (let j = 0; j < columns; j++, k++) scale[j] += matrix[k] * matrix[k];
  }
  for (let j = 0; j < columns; j++) scale[j] = scale[j] > 0 ? 1 / Math.sqrt(scale[j]) : 1;

  const height = Math.max(rows, columns);
  const work = new Float64Array(height * columns);
  for (let i = 0, k = 0; i < rows; i++) {
    for (let j = 0; j < columns; j++, k++) work[k] = matrix[k] * scale[j];
  }
  const workTarget = new Float64Array(height);
  workTarget.set(rightHandSide);
  const diagonal = new Float64Array(columns);
  factorise(work, height, columns, diagonal, workTarget);

  let smallest = Number.POSITIVE_INFINITY;
  let largest = 0;
  for (let k = 0; k < columns; k++) {
    smallest = Math.min(smallest, Math.abs(diagonal[k]));
    largest = Math.max(largest, Math.abs(diagonal[k]));
  }
  if (smallest > height * Number.EPSILON * largest) {
    return {
      factor: upperTriangle(work, diagonal, columns),
      diagonal,
      target: workTarget.subarray(0, columns),
      scale,
    };
  }

  const extended = upperTriangle(work, diagonal, 2 * columns);
  for (let k = 0; k < columns; k++) extended[(columns + k) * columns + k] = TIKHONOV;
  const extendedTarget = new Float64Array(2 * columns);
  extendedTarget.set(workTarget.subarray(0, columns));
  factorise(extended, 2 * columns, columns, diagonal, extendedTarget);
  return {
    factor: upperTriangle(extended, diagonal, columns),
    diagonal,
    target: extendedTarget.subarray(0, columns),
    scale,
  };
}

/** R on its own, with as many rows as asked for. */
function upperTriangle(factorised: Float64Array, diagonal: Float64Array, rows: number): Float64Array {
  const columns = diagonal.length;
  const triangle = new Float64Array(rows * columns);
  for (let i = 0; i < columns; i++) {
    triangle[i * columns + i] = diagonal[i];
    for (let j = i + 1; j < columns; j++) triangle[i * columns + j] = factorised[i * columns + j];
  }
  return triangle;
}
