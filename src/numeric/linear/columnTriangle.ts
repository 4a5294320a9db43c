import { applyReflector, makeReflector } from "./householder.js";

/**
 * The QR factor of a changing choice of columns of a matrix A, for active-set methods. Every column of A and the
 * right-hand side b are held in the coordinates of the current Q, so that rows from `count` on are what is left
 * of a column, or of b, outside the span of the chosen ones.
 */
export interface ColumnTriangle {
  readonly rows: number;
  readonly columns: number;
  /** QᵀA, one column after the other. */
  readonly data: Float64Array;
  /** Qᵀb. */
  readonly target: Float64Array;
  /** The chosen columns, in the order in which they form the triangle: the first `count` entries. */
  readonly chosen: Int32Array;
  /** 1 for a chosen column. */
  readonly isChosen: Uint8Array;
  count: number;
}

/** Starts with no column chosen. `matrix` is row-major; it and `target` are copied. */
export function createColumnTriangle(
  matrix: Float64Array,
  target: Float64Array,
  rows: number,
  columns: number,
): ColumnTriangle {
  const data = new Float64Array(rows * columns);
  for (let i = 0; i < rows; i++) {
    for (let j = 0; j < columns; j++) data[j * rows + i] = matrix[i * columns + j];
  }
  return {
    rows,
    columns,
    data,
    target: target.slice(),
    chosen: new Int32Array(columns),
    isChosen: new Uint8Array(columns),
    count: 0,
  };
}

/** Adds a column to the choice: one reflection. Needs `count < rows`. */
export function enterColumn(triangle: ColumnTriangle, column: number): void {
  const { rows, columns, data, target, chosen, isChosen, count } = triangle;
  const corner = column * rows + count;
  const height = rows - count;
  const diagonal = makeReflector(data, corner, 1, height);
  applyReflector({ values: data, start: corner, stride: 1 }, height, {
    values: target,
    start: count,
    stride: 1,
  });
  isChosen[column] = 1;
  for (let j = 0; j < columns; j++) {
    // Chosen columns are zero from row `count` on, and so are not changed.
    if (isChosen[j] === 0)
      applyReflector({ values: data, start: corner, stride: 1 }, height, {
        values: data,
        start: j * rows + count,
        stride: 1,
      });
  }
  data[corner] = diagonal;
  data.fill(0, corner + 1, corner + height);
  chosen[count] = column;
  triangle.count = count + 1;
}

/** Takes the column at a position of the choice out again: one Givens rotation for every column behind it. */
export function leaveColumn(triangle: ColumnTriangle, position: number): void {
  const { rows, columns, data, target, chosen, isChosen, count } = triangle;
  isChosen[chosen[position]] = 0;
  chosen.copyWithin(position, position + 1, count);
  triangle.count = count - 1;
  for (let k = position; k < count - 1; k++) {
    const corner = chosen[k] * rows + k;
    const length = Math.sqrt(data[corner] ** 2 + data[corner + 1] ** 2);
    const cosine = data[corner] / length;
    const sine = data[corner + 1] / length;
    for (let j = 0; j < columns; j++) rotate(data, j * rows + k, cosine, sine);
    rotate(target, k, cosine, sine);
    data[corner + 1] = 0;
  }
}

/** Least-squares coefficients of the chosen columns, in their order, into the first `count` entries of `out`. */
export function solveTriangle(triangle: ColumnTriangle, out: Float64Array): void {
  const { rows, data, target, chosen, count } = triangle;
  for (let i = 0; i < count; i++) out[i] = target[i];
  for (let k = count - 1; k >= 0; k--) {
    const column = chosen[k] * rows;
    const value = out[k] / data[column + k];
    out[k] = value;
    for (let i = 0; i < k; i++) out[i] -= value * data[column + i];
  }
}

function rotate(data: Float64Array, start: number, cosine: number, sine: number): void {
  const above = data[start];
  const below = data[start + 1];
  data[start] = cosine * above + sine * below;
  data[start + 1] = cosine * below - sine * above;
}
