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
   * By how much a mix that was not found might be better: one cut off by the budget of work, or one that linear
   * models put too far away. The latter part is no proof but held by comparison with exhaustive search. Null: not
   * known.
   */
  readonly gapDeltaE00: number | null;
  /** Weight of the risk term; below 1 where its full weight would leave a target out of tolerance. */
  readonly riskShare: number;
}
