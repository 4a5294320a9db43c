import type { MassUnit } from "../toners/massUnit.js";
import type { Screen } from "./screen.js";

/** What can be written to a file of its own, by the option that asks for it. */
export const OUTPUTS = ["out", "report", "certificate"] as const;

export type Output = (typeof OUTPUTS)[number];

/** Options that single verbs have; each may be given again. */
export const DETAILS = [
  "record",
  "toners",
  "job",
  "plan",
  "can",
  "pour",
  "pour-off",
  "sprayed",
  "new-pot",
  "card",
  "scale",
  "geometry",
  "withdraw",
  "readings",
  "formula",
  "wanted",
  "mix",
  "backing",
  "target",
  "beside",
  "light",
  "observer",
  "lighter",
  "redder",
  "yellower",
  "more-chromatic",
  "note",
] as const;

/** Details without a value. */
export const FLAG_DETAILS: readonly Detail[] = ["new-pot"];

export type Detail = (typeof DETAILS)[number];

/** What a command line says besides FILE. */
export interface Asked {
  /** As said; absent where it was not. */
  readonly unit?: MassUnit | undefined;
  /** All files; the first is FILE. */
  readonly files: readonly string[];
  /** Details with their values (empty of those without), in the order of the command line. */
  readonly details: readonly (readonly [detail: Detail, value: string])[];
}

/** An answer as a record for programs, as text for people, and what else may be asked of it. */
export interface Answer {
  readonly record: object;
  /** One screen. */
  readonly text: () => string;
  /** What stands behind it, shown below it by --details. */
  readonly more?: () => string;
  readonly files?: Readonly<Partial<Record<Output, () => string>>>;
  /** Saves it where it belongs besides; what cannot be saved is shown all the same. */
  readonly save?: () => void;
  /** The answer is that a check does not hold. */
  readonly hasFailed?: boolean;
}

/** One word of the command line. */
export interface Verb {
  readonly summary: string;
  /** What FILE is; absent for a verb that takes none. */
  readonly file?: string;
  /** Name of the record that --json prints. */
  readonly format: string;
  /** What is written by the options that it has; `files` of the answer has the same keys. */
  readonly outputs?: Readonly<Partial<Record<Output, string>>>;
  /** Arguments that can be tried. */
  readonly example: string;
  /** Whether it writes FILE, and does not read it. */
  readonly isBegun?: boolean;
  /** Whether --unit matters to its text. */
  readonly hasUnits?: boolean;
  /** Whether it takes more than one FILE. */
  readonly takesMany?: boolean;
  /** Whether each line of FILE can be an input of its own. */
  readonly takesLines?: boolean;
  /** The details that it has, each as "VALUE: what it says", or what it says where it takes no value. */
  readonly details?: Readonly<Partial<Record<Detail, string>>>;
  /** Brings in its code, so that no verb waits for the code of another. */
  readonly load: () => Promise<AnswerVerb>;
}

export type AnswerVerb = (terminal: Screen, file: string, asked: Asked) => Answer;

/** The value of a detail that is meant once; the last one counts. */
export function detailOf(details: Asked["details"], detail: Detail): string | undefined {
  return details.filter(([one]) => one === detail).at(-1)?.[1];
}
