/**
 * Bounded linear least squares with known answers, transcribed by a script from SciPy (commit 3dbf660a,
 * scipy/optimize/tests/test_lsq_linear.py; its comments say that they come from MATLAB). Seen, except where
 * `confidence` says computed: that answer comes from trying every active set.
 */
export interface BoundedLeastSquaresProblem {
  readonly note: string;
  readonly confidence: "seen" | "computed";
  readonly rows: number;
  readonly columns: number;
  /** Row-major. */
  readonly matrix: readonly number[];
  readonly rightHandSide: readonly number[];
  readonly lower: readonly number[];
  readonly upper: readonly number[];
  readonly x: readonly number[];
}

export const boundedLeastSquaresProblems: readonly BoundedLeastSquaresProblem[] = [
  {
    note: "bounds inactive: equals unconstrained LS",
    confidence: "seen",
    rows: 3,
    columns: 2,
    matrix: [0.171, -0.057, -0.049, -0.248, -0.166, 0.054],
    rightHandSide: [0.074, 1.014, -0.383],
    lower: [-1, -10],
    upper: [1, 0],
    x: [-0.004134064678858363, -4.084575142683185],
  },
  {
    note: "lower 0,none, upper none,none",
    confidence: "seen",
    rows: 3,
    columns: 2,
    matrix: [0.171, -0.057, -0.049, -0.248, -0.166, 0.054],
    rightHandSide: [0.074, 1.014, -0.383],
    lower: [0, Number.NEGATIVE_INFINITY],
    upper: [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY],
    x: [0, -4.084174437334673],
  },
  {
    note: "lower -1,0, upper none,none",
    confidence: "seen",
    rows: 3,
    columns: 2,
    matrix: [0.171, -0.057, -0.049, -0.248, -0.166, 0.054],
    rightHandSide: [0.074, 1.014, -0.383],
    lower: [-1, 0],
    upper: [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY],
    x: [0.448427311733504, 0],
  },
  {
    note: "lower none,none, upper none,-5",
    confidence: "seen",
    rows: 3,
    columns: 2,
    matrix: [0.171, -0.057, -0.049, -0.248, -0.166, 0.054],
    rightHandSide: [0.074, 1.014, -0.383],
    lower: [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY],
    upper: [Number.POSITIVE_INFINITY, -5],
    x: [-0.105560998682388, -5],
  },
  {
    note: "lower none,none, upper -1,none",
    confidence: "seen",
    rows: 3,
    columns: 2,
    matrix: [0.171, -0.057, -0.049, -0.248, -0.166, 0.054],
    rightHandSide: [0.074, 1.014, -0.383],
    lower: [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY],
    upper: [-1, Number.POSITIVE_INFINITY],
    x: [-1, -4.181102129483254],
  },
  {
    note: "lower 0,-4, upper 1,0",
    confidence: "seen",
    rows: 3,
    columns: 2,
    matrix: [0.171, -0.057, -0.049, -0.248, -0.166, 0.054],
    rightHandSide: [0.074, 1.014, -0.383],
    lower: [0, -4],
    upper: [1, 0],
    x: [0.005236663400791, -4],
  },
  {
    note: "rank deficient",
    confidence: "seen",
    rows: 1,
    columns: 2,
    matrix: [-0.307, -0.184],
    rightHandSide: [0.773],
    lower: [-0.1, -0.1],
    upper: [0.1, 0.1],
    x: [-0.1, -0.1],
  },
  {
    note: "three unknowns, two at a bound",
    confidence: "computed",
    rows: 3,
    columns: 3,
    matrix: [49, 41, -32, -19, -32, -8, -13, 10, 69],
    rightHandSide: [-41, -90, 47],
    lower: [31, -44, 26],
    upper: [54, -32, 28],
    x: [54, -43.890552584670225, 26],
  },
];
