/** Relative pivot at which a column of a Gram matrix counts as dependent on those before it. */
const DEPENDENT = 1e-11;

/**
 * G = RᵀR, R upper triangular, row-major; a column that depends on those before it gets a zero on the diagonal of R.
 * Source: Golub & Van Loan 2013 §4.2.
 */
export function upperFactor(gram: Float64Array, order: number): Float64Array {
  const r = new Float64Array(order * order);
  for (let i = 0; i < order; i++) {
    let pivot = gram[i * order + i];
    for (let k = 0; k < i; k++) pivot -= r[k * order + i] ** 2;
    if (!(pivot > DEPENDENT * gram[i * order + i])) continue;
    const root = Math.sqrt(pivot);
    r[i * order + i] = root;
    for (let j = i + 1; j < order; j++) {
      let value = gram[i * order + j];
      for (let k = 0; k < i; k++) value -= r[k * order + i] * r[k * order + j];
      r[i * order + j] = value / root;
    }
  }
  return r;
}

/** R⁻ᵀ·b, with 0 where the diagonal is 0. */
export function solveTransposed(r: Float64Array, order: number, b: ArrayLike<number>): Float64Array {
  const t = new Float64Array(order);
  for (let i = 0; i < order; i++) {
    const pivot = r[i * order + i];
    if (pivot === 0) continue;
    let rest = b[i];
    for (let k = 0; k < i; k++) rest -= r[k * order + i] * t[k];
    t[i] = rest / pivot;
  }
  return t;
}

/** R⁻¹·t, with 0 where the diagonal is 0. */
export function solveUpper(r: Float64Array, order: number, t: ArrayLike<number>): Float64Array {
  const x = new Float64Array(order);
  for (let i = order - 1; i >= 0; i--) {
    const pivot = r[i * order + i];
    if (pivot === 0) continue;
    let rest = t[i];
    for (let j = i + 1; j < order; j++) rest -= r[i * order + j] * x[j];
    x[i] = rest / pivot;
  }
  return x;
}
