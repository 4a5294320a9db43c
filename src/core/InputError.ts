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
  | "generic-toner"
  | "unreadable-json"
  | "unreadable-csv"
  | "unreadable-cgats"
  | "unreadable-xml"
  | "wrong-format"
  | "wrong-version"
  | "unreadable-file"
  | "outside-folder"
  | "unwritable-file"
  | "damaged-record"
  | "record-in-use"
  | "usage";

/** Marks an InputError of any copy of the package: a program may load ESM and CJS together. */
const BRAND = "masstone/InputError";

/**
 * Input that cannot be used as it stands. `path` is the place in the input, written like
 * `targets[0].readings[1].reflectance[3]`; it is empty when the whole input is meant. Tell it from other errors with
 * `isInputError`.
 */
export class InputError extends Error {
  override readonly name = "InputError";
  readonly brand = BRAND;

  constructor(
    readonly code: InputErrorCode,
    readonly path: string,
    readonly reason: string,
  ) {
    super(path === "" ? `${reason} [${code}]` : `${path}: ${reason} [${code}]`);
  }
}

/** Whether something that was thrown is an InputError, also of another copy of the package, window or kind of module. */
export function isInputError(error: unknown): error is InputError {
  return typeof error === "object" && error !== null && "brand" in error && error.brand === BRAND;
}
