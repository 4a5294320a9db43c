/** How a figure is known to us: read in an open file or paper, computed by us, or remembered and not looked up. */
export type Known = "seen" | "computed" | "memory";

/** What somebody has published, and what comes out here. */
export interface Figure {
  /** Which one, where a check has several. */
  readonly name: string;
  readonly expected: number;
  readonly got: number;
}

/** "absolute": |got − expected| ≤ allowed. "relative": |got − expected| ≤ allowed·|expected|. */
export type Measure = "absolute" | "relative";

/** Figures of one name that may be off by one amount. */
export interface Check {
  readonly name: string;
  readonly measure: Measure;
  readonly allowed: number;
  readonly figures: () => readonly Figure[];
}

/** Checks from one source. */
export interface CheckGroup {
  readonly title: string;
  /** Who published the figures, and in which open file or paper we saw them. */
  readonly source: string;
  readonly known: Known;
  /** What the allowed deviation stands for, where it is more than the last digit printed. */
  readonly remark?: string;
  readonly checks: readonly Check[];
}
