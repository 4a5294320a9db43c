/** Plain loops, so that nothing under test checks itself. Matrices are row-major. */

export const times = (matrix: ArrayLike<number>, columns: number, x: ArrayLike<number>): number[] =>
  Array.from({ length: matrix.length / columns }, (_, i) => {
    let sum = 0;
    for (let j = 0; j < columns; j++) sum += matrix[i * columns + j] * x[j];
    return sum;
  });

export const transposed = (matrix: ArrayLike<number>, columns: number): Float64Array => {
  const rows = matrix.length / columns;
  return Float64Array.from(matrix, (_, k) => matrix[(k % rows) * columns + Math.floor(k / rows)]);
};

export const minus = (u: ArrayLike<number>, v: ArrayLike<number>): number[] =>
  Array.from(u, (value, i) => value - v[i]);

export const norm = (v: ArrayLike<number>): number => Math.hypot(...Array.from(v));

export const columnNorms = (matrix: ArrayLike<number>, columns: number): number[] =>
  Array.from({ length: columns }, (_, j) => norm(Array.from(matrix).filter((_, k) => k % columns === j)));

/** Aᵀ(Ax − b) */
export const gradient = (
  matrix: ArrayLike<number>,
  rightHandSide: ArrayLike<number>,
  x: ArrayLike<number>,
): number[] => {
  const residual = minus(times(matrix, x.length, x), rightHandSide);
  return times(transposed(matrix, x.length), residual.length, residual);
};
