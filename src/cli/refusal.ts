import type { InputErrorCode } from "../core/InputError.js";

/** What stands in place of the answer to a line that was refused. */
export interface Refusal {
  readonly format: "masstone/refusal";
  readonly version: 1;
  /** Number of the line; the first is 1. */
  readonly line: number;
  /** Why, in a word that stays the same from version to version. */
  readonly code: InputErrorCode;
  /** Where: the file and line, then the place in it. */
  readonly path: string;
  /** Why, in a sentence for people. */
  readonly reason: string;
}
