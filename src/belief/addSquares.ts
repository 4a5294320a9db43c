/** Adds RᵀR times `sign` to a square form, row-major; `rows` are the rows of R, `count` numbers each. */
export function addSquares(rows: Float64Array, count: number, sign: number, into: Float64Array): void {
  for (let from = 0; from < rows.length; from += count) {
    for (let i = 0; i < count; i++) {
      const value = sign * rows[from + i];
      if (value === 0) continue;
      const line = i * count;
      for (let k = 0; k < count; k++) into[line + k] += value * rows[from + k];
    }
  }
}
