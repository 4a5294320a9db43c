/** G·x ≥ h */
export interface LinearConstraints {
  /** G, row-major: for every constraint a row of as many entries as x. */
  readonly matrix: Float64Array;
  /** h */
  readonly atLeast: Float64Array;
}
