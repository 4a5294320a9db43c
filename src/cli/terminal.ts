import type { RecordAddition, RecordTexts } from "./recordTexts.js";

/** Of a file that another file names, not a person. */
export interface NamedInFile {
  /** The folder that it must lie in or below; absent where a person allowed any (--allow-outside). */
  readonly within?: string;
}

/** The outside world as the commands see it, so that they can be run without one. */
export interface Terminal {
  /** Text of a file; "-" is the standard input. */
  readonly readFile: (path: string, named?: NamedInFile) => string;
  /** Each line of a file as a disk of its own, whose FILE it is. */
  readonly readLines: (path: string) => Iterable<Pick<Terminal, "readFile">>;
  /** Announces a file that will be written; refused where that cannot be, and what is read later may not be it. */
  readonly willWrite: (path: string) => void;
  readonly writeFile: (path: string, text: string) => void;
  /** Text and end of a record, as `readRecordTexts` and `appendToRecord` do on the disk. */
  readonly readRecord: (path: string) => RecordTexts;
  readonly appendToRecord: (path: string, addition: RecordAddition) => void;
  /** How this command is called here: `masstone`, or `npx masstone`. */
  readonly program: string;
  /** Time of day, as ISO 8601 writes it. */
  readonly now: () => string;
  /** As it is: `screenOf` makes texts safe before. */
  readonly write: (text: string) => void;
  /** False once what was written could not be delivered. */
  readonly isRead: () => boolean;
  readonly writeError: (text: string) => void;
  /** Whether a person watches the standard error: only then is progress shown. */
  readonly isWatched: boolean;
  /** Whether the standard output is a terminal that may show bold: not with NO_COLOR. */
  readonly isStyled: boolean;
}

/**
 * What the process returns to the shell. `failed`: an answer was given, and it is that a check does not hold.
 * `unsaved`: an answer was given, and a file that was asked for could not be written.
 */
export const EXIT = Object.freeze({ answered: 0, defect: 1, refused: 2, failed: 3, unsaved: 4 });
