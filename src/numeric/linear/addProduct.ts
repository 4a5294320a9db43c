/** A dense matrix, row by row. */
export interface Rows {
  readonly values: Float64Array;
  readonly width: number;
}

/**
 * into += factor·AᵀB, row-major, for A and B of as many rows: four of them at a time, so that what is summed up is loaded
 * and stored once for all four. Where A and B are the same array, `into` must be symmetric, and stays so.
 */
export function addProduct(a: Rows, b: Rows, into: Float64Array, factor = 1): void {
  const { values: left, width: height } = a;
  const { values: right, width } = b;
  const isSquare = left === right;
  const rows = left.length / height;
  for (let x = 0; x < rows; x += 4) {
    // Beyond the last row the last one is taken, no times.
    const x1 = Math.min(x + 1, rows - 1);
    const x2 = Math.min(x + 2, rows - 1);
    const x3 = Math.min(x + 3, rows - 1);
    const b0 = x * width;
    const b1 = x1 * width;
    const b2 = x2 * width;
    const b3 = x3 * width;
    for (let r = 0; r < height; r++) {
      const f0 = factor * left[x * height + r];
      const f1 = x1 > x ? factor * left[x1 * height + r] : 0;
      const f2 = x2 > x1 ? factor * left[x2 * height + r] : 0;
      const f3 = x3 > x2 ? factor * left[x3 * height + r] : 0;
      if (f0 === 0 && f1 === 0 && f2 === 0 && f3 === 0) continue;
      const line = r * width;
      const end = isSquare ? r + 1 : width;
      for (let c = 0; c < end; c++) {
        into[line + c] += f0 * right[b0 + c] + f1 * right[b1 + c] + f2 * right[b2 + c] + f3 * right[b3 + c];
      }
    }
  }
  for (let r = 0; isSquare && r < width; r++) {
    for (let c = 0; c < r; c++) into[c * width + r] = into[r * width + c];
  }
}
