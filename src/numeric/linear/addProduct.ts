/** A dense matrix, row by row. */
export interface Rows {
  readonly values: Float64Array;
  readonly width: number;
}

/**
 * into += factor·AᵀB, row-major, for A and B of as many rows: four of them at a time, so that what is summed up is loaded
 * and stored once for all four; where all four are 0 nothing is done. Where A and B are the same array, `into` must be
 * symmetric, and stays so.
 */
export function addProduct(a: Rows, b: Rows, into: Float64Array, factor = 1): void {
  const { values: left, width: height } = a;
  const { values: right, width } = b;
  const isSquare = left === right;
  const rows = left.length / height;
  const spans = new Int32Array(width + 2);
  const lines = isSquare ? spans : new Int32Array(height + 2);
  for (let x = 0; x < rows; x += 4) {
    // Beyond the last row the last one is taken, no times.
    const x1 = Math.min(x + 1, rows - 1);
    const x2 = Math.min(x + 2, rows - 1);
    const x3 = Math.min(x + 3, rows - 1);
    const b0 = x * width;
    const b1 = x1 * width;
    const b2 = x2 * width;
    const b3 = x3 * width;
    const ends = findSpans(right, [b0, b1, b2, b3], width, spans);
    const lineEnds = isSquare
      ? ends
      : findSpans(left, [x * height, x1 * height, x2 * height, x3 * height], height, lines);
    for (let m = 0; m < lineEnds; m += 2) {
      for (let r = lines[m]; r < lines[m + 1]; r++) {
        const f0 = factor * left[x * height + r];
        const f1 = x1 > x ? factor * left[x1 * height + r] : 0;
        const f2 = x2 > x1 ? factor * left[x2 * height + r] : 0;
        const f3 = x3 > x2 ? factor * left[x3 * height + r] : 0;
        if (f0 === 0 && f1 === 0 && f2 === 0 && f3 === 0) continue;
        const line = r * width;
        const last = isSquare ? r + 1 : width;
        for (let n = 0; n < ends && spans[n] < last; n += 2) {
          const end = Math.min(spans[n + 1], last);
          for (let c = spans[n]; c < end; c++) {
            into[line + c] +=
              f0 * right[b0 + c] + f1 * right[b1 + c] + f2 * right[b2 + c] + f3 * right[b3 + c];
          }
        }
      }
    }
  }
  for (let r = 0; isSquare && r < width; r++) {
    for (let c = 0; c < r; c++) into[c * width + r] = into[r * width + c];
  }
}

/** Shorter runs of zeros are not skipped. */
const LEAST_GAP = 8;

/** Where one of four rows is not 0: first column and the one after the last, span by span; returns how many of both. */
function findSpans(
  values: Float64Array,
  [b0, b1, b2, b3]: readonly number[],
  width: number,
  into: Int32Array,
): number {
  let count = 0;
  for (let c = 0; c < width; c++) {
    if (values[b0 + c] === 0 && values[b1 + c] === 0 && values[b2 + c] === 0 && values[b3 + c] === 0)
      continue;
    if (count > 0 && c - into[count - 1] < LEAST_GAP) into[count - 1] = c + 1;
    else {
      into[count++] = c;
      into[count++] = c + 1;
    }
  }
  return count;
}
