/** A square matrix, row by row. */
export type Square = Float64Array;

const sizeOf = (matrix: Square): number => Math.round(Math.sqrt(matrix.length));

export function identity(size: number): Square {
  const matrix = new Float64Array(size * size);
  for (let i = 0; i < size; i++) matrix[i * size + i] = 1;
  return matrix;
}

/** a + factor·b. */
export function plus(a: Square, b: Square, factor = 1): Square {
  const sum = new Float64Array(a.length);
  for (let i = 0; i < sum.length; i++) sum[i] = a[i] + factor * b[i];
  return sum;
}

export function times(a: Square, b: Square): Square {
  const size = sizeOf(a);
  const product = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    const row = i * size;
    for (let k = 0; k < size; k++) {
      const factor = a[row + k];
      const other = k * size;
      for (let j = 0; j < size; j++) product[row + j] += factor * b[other + j];
    }
  }
  return product;
}

export function timesVector(a: Square, x: ArrayLike<number>): Float64Array {
  const size = x.length;
  const product = new Float64Array(size);
  for (let i = 0; i < size; i++) for (let k = 0; k < size; k++) product[i] += a[i * size + k] * x[k];
  return product;
}

/** a⁻¹b for `columns` right-hand sides (row by row), by elimination with row pivots. */
export function solve(a: Square, b: Float64Array): Float64Array {
  const size = sizeOf(a);
  const columns = b.length / size;
  const left = a.slice();
  const right = b.slice();
  for (let k = 0; k < size; k++) {
    let pivot = k;
    for (let i = k + 1; i < size; i++) {
      if (Math.abs(left[i * size + k]) > Math.abs(left[pivot * size + k])) pivot = i;
    }
    swapRows(left, size, k, pivot);
    swapRows(right, columns, k, pivot);
    const scale = 1 / left[k * size + k];
    for (let i = 0; i < size; i++) {
      if (i === k) continue;
      const factor = left[i * size + k] * scale;
      subtractRow(left, size, i, k, factor);
      subtractRow(right, columns, i, k, factor);
    }
  }
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < columns; j++) right[i * columns + j] /= left[i * size + i];
  }
  return right;
}

function subtractRow(matrix: Float64Array, columns: number, from: number, row: number, factor: number): void {
  for (let j = 0; j < columns; j++) matrix[from * columns + j] -= factor * matrix[row * columns + j];
}

function swapRows(matrix: Float64Array, columns: number, a: number, b: number): void {
  if (a === b) return;
  for (let j = 0; j < columns; j++) {
    const kept = matrix[a * columns + j];
    matrix[a * columns + j] = matrix[b * columns + j];
    matrix[b * columns + j] = kept;
  }
}
