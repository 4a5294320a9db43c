/** What was seen of one film: how an operator turns its reflectance into residuals in units of their sd. */
export interface Observation {
  /** Which film, by its place. */
  readonly film: number;
  readonly rows: number;
  look(reflectance: Float64Array): Sight;
}

/** An observation held against one predicted reflectance. */
export interface Sight {
  /** (seen − predicted)/sd, row by row. */
  readonly residual: Float64Array;
  /** Writes to `out` from `to` on, row by row, by what the prediction changes where reflectance changes by `change` from `at` on. */
  carry(change: Float64Array, at: number, out: Float64Array, to: number): void;
}
