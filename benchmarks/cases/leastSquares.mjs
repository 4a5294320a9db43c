import { Matrix } from "ml-matrix";
import { matrixLeastSquares, matrixNnls } from "../baselines/matrixNnls.mjs";
import { expectClose } from "../expectClose.mjs";
import { GRID, ONE_ANGLE, tonerSet } from "../inventedPaint.mjs";
import { importSources } from "../studies/importSources.mjs";

const ROWS = GRID.count;
const COLUMNS = ["black", "yellow", "ochre", "red", "magenta", "violet", "blue", "green"];
const WANTED = ["red-blue", "orange"];

/**
 * Least squares 31 × 8, unbounded and with x ≥ 0, against the QR of ml-matrix: why the inner loops are written for
 * typed arrays. The columns are K of eight toners, the right-hand side is K of two others.
 */
export async function leastSquaresCases() {
  const [{ nnls }, { factorise, solveUpper }] = await importSources(
    "src/numeric/leastSquares/nnls.ts",
    "src/numeric/linear/householder.ts",
  );
  const { toners } = tonerSet(ONE_ANGLE);
  const absorption = (id) => toners.find((toner) => toner.id === id).k[ONE_ANGLE[0]];
  const rows = Array.from({ length: ROWS }, (_, band) => COLUMNS.map((id) => absorption(id)[band]));
  const wanted = rows.map((_, band) => WANTED.reduce((sum, id) => sum + absorption(id)[band], 0));

  const packed = Float64Array.from(rows.flat());
  const right = Float64Array.from(wanted);
  const matrix = new Matrix(rows);
  const column = Matrix.columnVector(wanted);
  const diagonal = new Float64Array(COLUMNS.length);
  const householder = () => {
    const factor = packed.slice();
    const x = right.slice();
    factorise(factor, ROWS, COLUMNS.length, diagonal, x);
    solveUpper(factor, COLUMNS.length, diagonal, x);
    return x.subarray(0, COLUMNS.length);
  };
  const lawsonHanson = () => nnls(packed, right, ROWS, COLUMNS.length).x;

  return [
    {
      name: "least squares 31 × 8",
      run: householder,
      baseline: { name: "QR of ml-matrix", run: () => matrixLeastSquares(matrix, column) },
      check: () => expectClose("least squares", householder(), matrixLeastSquares(matrix, column), 1e-10),
    },
    {
      name: "NNLS 31 × 8",
      run: lawsonHanson,
      baseline: { name: "Lawson & Hanson with QR of ml-matrix", run: () => matrixNnls(matrix, column) },
      check: () => expectClose("NNLS", lawsonHanson(), matrixNnls(matrix, column), 1e-10),
    },
  ];
}
