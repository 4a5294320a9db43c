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
  for (let first = 0; first < size; first += 4) {
    const isFull = first + 4 <= size;
    if (isFull) fillFourRows(a, at, size, first);
    for (let i = first; i < Math.min(first + 4, size); i++) {
      const row = at + i * size;
      for (let j = isFull ? first : 0; j <= i; j++) {
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
  }
  return true;
}

/** Rows first … first + 3 of L left of column `first`: four independent sums run faster. */
function fillFourRows(a: Float64Array, at: number, size: number, first: number): void {
  const row0 = at + first * size;
  const row1 = row0 + size;
  const row2 = row1 + size;
  const row3 = row2 + size;
  for (let j = 0; j < first; j++) {
    const other = at + j * size;
    let sum0 = a[row0 + j];
    let sum1 = a[row1 + j];
    let sum2 = a[row2 + j];
    let sum3 = a[row3 + j];
    for (let k = 0; k < j; k++) {
      const factor = a[other + k];
      sum0 -= a[row0 + k] * factor;
      sum1 -= a[row1 + k] * factor;
      sum2 -= a[row2 + k] * factor;
      sum3 -= a[row3 + k] * factor;
    }
    const pivot = a[other + j];
    a[row0 + j] = sum0 / pivot;
    a[row1 + j] = sum1 / pivot;
    a[row2 + j] = sum2 / pivot;
    a[row3 + j] = sum3 / pivot;
  }
}

/** B ← L⁻¹·B for a lower triangle L, size × size, and the size × width matrix B at `start`. */
export function solveLower(
  lower: Float64Array,
  size: number,
  b: Float64Array,
  start: number,
  width: number,
): void {
  if (width === 1) {
    solveLowerOne(lower, size, b, start);
    return;
  }
  for (let i = 0; i < size; i++) {
    const row = start + i * width;
    const line = i * size;
    let j = 0;
    for (; j + 4 <= i; j += 4) subtractFourRows(lower, line + j, b, start + j * width, { row, width });
    for (; j < i; j++) subtractRow(lower[line + j], b, start + j * width, row, width);
    const pivot = 1 / lower[line + i];
    for (let k = 0; k < width; k++) b[row + k] *= pivot;
  }
}

/** One right-hand side: products of rows, without a call for every entry. */
function solveLowerOne(lower: Float64Array, size: number, b: Float64Array, start: number): void {
  for (let i = 0; i < size; i++) {
    const line = i * size;
    let rest = b[start + i];
    for (let j = 0; j < i; j++) rest -= lower[line + j] * b[start + j];
    b[start + i] = rest / lower[line + i];
  }
}

/** B ← L⁻ᵀ·B, likewise. */
export function solveLowerTransposed(
  lower: Float64Array,
  size: number,
  b: Float64Array,
  start: number,
  width: number,
): void {
  for (let i = size - 1; i >= 0; i--) {
    const row = start + i * width;
    const pivot = 1 / lower[i * size + i];
    for (let k = 0; k < width; k++) b[row + k] *= pivot;
    for (let j = 0; j < i; j++) subtractRow(lower[i * size + j], b, row, start + j * width, width);
  }
}

/** Four times `subtractRow`, for factors side by side and rows one after the other: what is left is loaded and stored once. */
function subtractFourRows(
  factors: Float64Array,
  at: number,
  b: Float64Array,
  from: number,
  { row, width }: { readonly row: number; readonly width: number },
): void {
  const f0 = factors[at];
  const f1 = factors[at + 1];
  const f2 = factors[at + 2];
  const f3 = factors[at + 3];
  if (f0 === 0 && f1 === 0 && f2 === 0 && f3 === 0) return;
  const b1 = from + width;
  const b2 = b1 + width;
  const b3 = b2 + width;
  for (let k = 0; k < width; k++) {
    b[row + k] = b[row + k] - f0 * b[from + k] - f1 * b[b1 + k] - f2 * b[b2 + k] - f3 * b[b3 + k];
  }
}

function subtractRow(factor: number, b: Float64Array, from: number, to: number, width: number): void {
  if (factor === 0) return;
  for (let k = 0; k < width; k++) b[to + k] -= factor * b[from + k];
}
