/** What `correct` works out beside the additions, each for some more time. */
export interface CorrectOptions {
  /** The best correction of every number of pours up to the one allowed; `byPours` is empty without. */
  readonly alternatives?: boolean;
  /** What is proved of the answer; `certificate` is null without. */
  readonly certificate?: boolean;
  /** What to pour off, or a new pot, where a match is out of reach; `wayOut` is null without. */
  readonly wayOut?: boolean;
}

/** Everything is worked out unless it is asked not to. */
export const CORRECT_DEFAULTS: Required<CorrectOptions> = Object.freeze({
  alternatives: true,
  certificate: true,
  wayOut: true,
});
