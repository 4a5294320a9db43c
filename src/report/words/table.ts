/** Cells for people, the same in text and in HTML. */
export interface Table {
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
  /** Columns of numbers. */
  readonly right: readonly number[];
}
