import { checkMatrix } from "./checkMatrix.js";

/**
 * L, lower triangular and row-major, with L·Lᵀ = A for a symmetric positive semidefinite A (size × size, of which the
 * lower triangle is read): a covariance, which may well be singular. A pivot ≤ size·ε·(its diagonal entry of A) counts
 * as zero, and so does its column. Throws `wrong-length`, `not-finite`. Source: Higham 2002, ch. 10.
 */
export function lowerFactor(matrix: Float64Array, size: number): Float64Array {
  checkMatrix(matrix, size, size, "matrix");
  const factor = new Float64Array(size * size);
  for (let j = 0; j < size; j++) {
    // Most covariances are nearly diagonal: what is 0 in the row takes nothing away.
    const held: number[] = [];
    for (let k = 0; k < j; k++) if (factor[j * size + k] !== 0) held.push(k);
    const rest = (i: number) => {
      let sum = matrix[i * size + j];
      for (const k of held) sum -= factor[i * size + k] * factor[j * size + k];
      return sum;
    };
    const pivot = rest(j);
    if (!(pivot > size * Number.EPSILON * matrix[j * size + j])) continue;
    const diagonal = Math.sqrt(pivot);
    factor[j * size + j] = diagonal;
    for (let i = j + 1; i < size; i++) factor[i * size + j] = rest(i) / diagonal;
  }
  return factor;
}
