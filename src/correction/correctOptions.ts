/** What `correct` works out beside the additions, each for some more time. */
export interface CorrectOptions {
  /** The best correction of every number of pours up to the one allowed; `byPours` is empty without. */
  readonly alternatives?: boolean;
}

/** Everything is worked out unless it is asked not to. */
export const CORRECT_DEFAULTS: Required<CorrectOptions> = Object.freeze({ alternatives: true });
