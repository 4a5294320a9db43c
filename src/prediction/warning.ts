export type WarningCode =
  | "censored-bands"
  | "collinear-toners"
  | "hiding-loss"
  | "narrow-range"
  | "resampled"
  | "pot-over-limit";

/** Something true that whoever pours should know; never a reason to refuse. */
export interface Warning {
  readonly code: WarningCode;
  readonly message: string;
  /** Place in the job, where there is one. */
  readonly path?: string;
  readonly toners?: readonly string[];
  readonly wavelengths?: readonly number[];
}
