import { Matrix, QrDecomposition } from "ml-matrix";

/** Least squares A·x ≈ b by the QR decomposition of ml-matrix; `a` is a Matrix, `b` one of a single column. */
export const matrixLeastSquares = (a, b) => new QrDecomposition(a).solve(b).to1DArray();

/**
 * Non-negative least squares by Lawson & Hanson (1974) as the book's flow chart says it, every step a new
 * least-squares problem in the columns that are positive.
 */
export function matrixNnls(a, b) {
  const columns = Array.from({ length: a.columns }, (_, j) => j);
  let positive = [];
  let x = columns.map(() => 0);
  for (;;) {
    const rest = Matrix.sub(b, a.mmul(Matrix.columnVector(x)));
    const gradient = a.transpose().mmul(rest).to1DArray();
    const waiting = columns.filter((j) => !positive.includes(j) && gradient[j] > 1e-12);
    if (waiting.length === 0) return x;
    positive = [...positive, waiting.reduce((best, j) => (gradient[j] > gradient[best] ? j : best))];
    for (;;) {
      const chosen = a.subMatrixColumn(positive);
      const solution = matrixLeastSquares(chosen, b);
      const goal = columns.map((j) => (positive.includes(j) ? solution[positive.indexOf(j)] : 0));
      const blocking = positive.filter((j) => goal[j] <= 0);
      if (blocking.length === 0) {
        x = goal;
        break;
      }
      const fraction = Math.min(...blocking.map((j) => x[j] / (x[j] - goal[j])));
      x = x.map((value, j) => value + fraction * (goal[j] - value));
      positive = positive.filter((j) => x[j] > 1e-12);
    }
  }
}
