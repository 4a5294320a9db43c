/*
 * Cholesky and triangular solves on square blocks inside longer arrays, with many right-hand sides side by side.
 * Blocks and right-hand sides are row-major, so that the inner loops run along memory.
 */

/**
 * A = L·Lᵀ in place, of the size × size block that starts at `at`; only the lower triangle is read and written.
 * Returns false, with the block half done, where a pivot is ≤ size·ε·(the diagonal entry it is left of).
 * Source: Golub & Van Loan (2013) §4.2.
 */
export function choleskyInPlace(a: Float64Array, at: number, size: number): boolean {
  for (let i = 0; i < size; i++) {
    const row = at + i * size;
    for (let j = 0; j <= i; j++) {
      const other = at + j * size;
      let sum = a[row + j];
      for (let k = 0; k < j; k++) sum -= a[row + k] * a[other + k];
      if (j < i) a[row + j] = sum / a[other + j];
      else {
        if (!(sum > size * Number.EPSILON * a[row + i])) return false;
        a[row + i] = Math.sqrt(sum);
      }
    }
  }
  return true;
}

/** B ← L⁻¹·B for the L of a block at `at` and the size × width matrix B at `start`. */
export function solveLower(
  lower: Float64Array,
  at: number,
  size: number,
  b: Float64Array,
  start: number,
  width: number,
): void {
  if (width === 1) {
    solveLowerOne(lower, at, size, b, start);
    return;
  }
  for (let i = 0; i < size; i++) {
    const row = start + i * width;
    for (let j = 0; j < i; j++) subtractRow(lower[at + i * size + j], b, start + j * width, row, width);
    const pivot = 1 / lower[at + i * size + i];
    for (let k = 0; k < width; k++) b[row + k] *= pivot;
  }
}

/** One right-hand side: products of rows, without a call for every entry. */
function solveLowerOne(lower: Float64Array, at: number, size: number, b: Float64Array, start: number): void {
  for (let i = 0; i < size; i++) {
    const line = at + i * size;
    let rest = b[start + i];
    for (let j = 0; j < i; j++) rest -= lower[line + j] * b[start + j];
    b[start + i] = rest / lower[line + i];
  }
}

/** B ← L⁻ᵀ·B, likewise. */
export function solveLowerTransposed(
  lower: Float64Array,
  at: number,
  size: number,
  b: Float64Array,
  start: number,
  width: number,
): void {
  for (let i = size - 1; i >= 0; i--) {
    const row = start + i * width;
    const pivot = 1 / lower[at + i * size + i];
    for (let k = 0; k < width; k++) b[row + k] *= pivot;
    for (let j = 0; j < i; j++) subtractRow(lower[at + i * size + j], b, row, start + j * width, width);
  }
}

function subtractRow(factor: number, b: Float64Array, from: number, to: number, width: number): void {
  if (factor === 0) return;
  for (let k = 0; k < width; k++) b[to + k] -= factor * b[from + k];
}
