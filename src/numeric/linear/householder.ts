/*
 * Householder reflections on plain arrays. A vector inside an array is named by where it starts, its stride
 * and its count, so that rows and columns of a matrix are served by the same two loops.
 */

/**
 * Turns x into the v of the reflection H = I − v·vᵀ/v₀ for which H·x = (α, 0, …, 0)ᵀ.
 * @param data holds x at `start`, `start + stride`, …, `count` entries; it holds v afterwards
 * @returns α = −sign(x₀)·‖x‖; x = 0 gives v = 0 and α = 0, which `applyReflector` takes for H = I
 * Source: Householder (1958); the scaling v₀ ∈ [1, 2] of JAMA.
 */
export function makeReflector(data: Float64Array, start: number, stride: number, count: number): number {
  const end = start + stride * count;
  let squares = 0;
  for (let i = start; i < end; i += stride) squares += data[i] * data[i];
  const norm = Math.sqrt(squares);
  if (norm === 0) return 0;
  const signed = data[start] < 0 ? -norm : norm;
  const inverse = 1 / signed;
  for (let i = start; i < end; i += stride) data[i] *= inverse;
  data[start] += 1;
  return -signed;
}

/** A vector within an array: its entries are at start, start + stride, … */
export interface Strided {
  readonly values: Float64Array;
  readonly start: number;
  readonly stride: number;
}

/** Replaces y by H·y, for the v that `makeReflector` left in `data` and a y of as many entries. */
export function applyReflector(
  { values: data, start, stride }: Strided,
  count: number,
  { values: y, start: yStart, stride: yStride }: Strided,
): void {
  const first = data[start];
  if (first === 0) return;
  let product = 0;
  for (let i = 0, v = start, w = yStart; i < count; i++, v += stride, w += yStride) product += data[v] * y[w];
  product /= first;
  for (let i = 0, v = start, w = yStart; i < count; i++, v += stride, w += yStride) y[w] -= product * data[v];
}

/**
 * A = Q·R in place, carrying a right-hand side along. R is left strictly above the diagonal of `matrix`,
 * its diagonal in `diagonal`, Qᵀ·b in `rightHandSide`; the vectors v stay on and below the diagonal.
 * @param matrix row-major, rows × columns, rows ≥ columns
 * The least-squares solution follows by `solveUpper`; ‖rightHandSide[columns…]‖ is then its residual.
 * Source: Golub & Van Loan (2013) §5.2.
 */
export function factorise(
  matrix: Float64Array,
  rows: number,
  columns: number,
  diagonal: Float64Array,
  rightHandSide: Float64Array,
): void {
  for (let k = 0; k < columns; k++) {
    const corner = k * columns + k;
    const count = rows - k;
    diagonal[k] = makeReflector(matrix, corner, columns, count);
    for (let j = 1; j < columns - k; j++) {
      applyReflector({ values: matrix, start: corner, stride: columns }, count, {
        values: matrix,
        start: corner + j,
        stride: columns,
      });
    }
    applyReflector({ values: matrix, start: corner, stride: columns }, count, {
      values: rightHandSide,
      start: k,
      stride: 1,
    });
  }
}

/**
 * Replaces the first `order` entries of `vector` by the solution of R·x = vector.
 * R is stored as `factorise` leaves it, `order` to a row; a zero on its diagonal gives infinities: judge first.
 */
export function solveUpper(
  factor: Float64Array,
  order: number,
  diagonal: Float64Array,
  vector: Float64Array,
): void {
  for (let k = order - 1; k >= 0; k--) {
    let rest = vector[k];
    for (let j = k + 1; j < order; j++) rest -= factor[k * order + j] * vector[j];
    vector[k] = rest / diagonal[k];
  }
}

/** Replaces the first `order` entries of `vector` by the solution of Rᵀ·y = vector; R as in `solveUpper`. */
export function solveUpperTransposed(
  factor: Float64Array,
  order: number,
  diagonal: Float64Array,
  vector: Float64Array,
): void {
  for (let k = 0; k < order; k++) {
    const value = vector[k] / diagonal[k];
    vector[k] = value;
    if (value === 0) continue;
    for (let j = k + 1; j < order; j++) vector[j] -= factor[k * order + j] * value;
  }
}
