/** How far the search for the additions went. */
export interface SearchReport {
  /**
   * `all-subsets`: of all toners at hand, up to the number of pours allowed. `all-subsets-then-stepwise`: beyond four pours one
   * more at a time. `none`: there was nothing to search for.
   */
  readonly method: "all-subsets" | "all-subsets-then-stepwise" | "none";
  /** Subsets searched through lattice point by lattice point; the others were out of reach by their bounds. */
  readonly subsets: number;
  readonly latticePoints: number;
  /**
   * By how much a mix might be better that a limit on the work cut off, or that linear models saw too far away: the
   * latter is no proof but held by comparison with exhaustive search. Null: not known.
   */
  readonly gapDeltaE00: number | null;
  /** What the doubt of the pours counted for; below 1 where all of it would leave a target out of tolerance. */
  readonly riskShare: number;
}
