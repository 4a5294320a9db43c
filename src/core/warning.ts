/** Every kind of warning; the code is stable, the message is for people. */
export type WarningCode =
  | "angle-left-out"
  | "apparent-strengthening"
  | "card-not-from-pot"
  | "cards-outvoted"
  | "censored-bands"
  | "collinear-toners"
  | "comparison-left-out"
  | "effect-pigments"
  | "hiding-loss"
  | "narrow-range"
  | "not-converged"
  | "not-identifiable"
  | "resampled"
  | "pot-over-limit"
  | "promise-not-kept"
  | "scale-too-coarse"
  | "stock-short"
  | "uncertainty-cut"
  | "unexplained-panel"
  | "white-tilts-flake"
  | "work-limit";

/** Something true that whoever pours should know; never a reason to refuse. */
export interface Warning {
  readonly code: WarningCode;
  readonly message: string;
  /** Place in the job, where there is one. */
  readonly path?: string;
  readonly toners?: readonly string[];
  readonly wavelengths?: readonly number[];
}
