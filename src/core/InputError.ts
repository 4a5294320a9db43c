/** Every reason for which input is refused; the code is stable, the message is for people. */
export type InputErrorCode =
  | "missing"
  | "wrong-type"
  | "not-finite"
  | "out-of-range"
  | "wrong-length"
  | "too-large"
  | "duplicate"
  | "percent-not-fraction"
  | "gap"
  | "outside-grid"
  | "unknown-key"
  | "unknown-word"
  | "unknown-toner"
  | "unknown-geometry"
  | "unknown-illuminant"
  | "unknown-observer"
  | "no-pigment"
  | "unreadable-json"
  | "unreadable-csv"
  | "unreadable-cgats"
  | "unreadable-xml"
  | "wrong-format"
  | "wrong-version"
  | "unreadable-file"
  | "unwritable-file"
  | "damaged-record"
  | "record-in-use"
  | "usage";

/**
 * Input that cannot be used as it stands. `path` is the place in the input, written like
 * `targets[0].readings[1].reflectance[3]`; it is empty when the whole input is meant.
 */
export class InputError extends Error {
  override readonly name = "InputError";

  constructor(
    readonly code: InputErrorCode,
    readonly path: string,
    readonly reason: string,
  ) {
    super(path === "" ? `${reason} [${code}]` : `${path}: ${reason} [${code}]`);
  }
}
