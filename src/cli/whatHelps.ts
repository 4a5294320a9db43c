import type { InputError, InputErrorCode } from "../core/InputError.js";
import type { FORMAT_VERSIONS } from "../formats/header.js";
import { isRecord } from "../formats/jobRecord.js";

type Format = keyof typeof FORMAT_VERSIONS;

/** What a file of each format is for. */
export const USES: Readonly<Record<Format, string>> = Object.freeze({
  "masstone/job": "masstone correct, predict, directions and learn take it, and record and next with --job",
  "masstone/plan": "masstone hold-back takes it, and record and next with --plan",
  "masstone/samples": "masstone characterise takes it",
  "masstone/record": "masstone record, next, compare and learn take it, and correct with --record",
  "masstone/toners": "a job, a plan or a record names it as its toners",
  "masstone/readings": "masstone record takes it with --card, and masstone/samples names it under files",

  "masstone/correction":
    "it is an answer of masstone correct, or an answer of masstone compare, not a question",
  "masstone/certificate": "it is what masstone correct proves of its answer, with --certificate",
  "masstone/prediction": "it is an answer of masstone predict, not a question",
  "masstone/directions": "it is an answer of masstone directions, not a question",
  "masstone/characterisation": "it is an answer of masstone characterise; --out writes the toners alone",
  "masstone/hold-back": "it is an answer of masstone hold-back, not a question",
  "masstone/learning": "it is an answer of masstone learn; --out writes the toners alone",
  "masstone/refusal": "it tells why a line was refused, with --lines",
  "masstone/next": "it is an answer of masstone next, not a question",
  "masstone/job-state": "it is an answer of masstone record, not a question",
  "masstone/record-end": "it belongs to the record of the same name without .end; give that",
});

const READINGS = "masstone record takes them with --card FILE, and a masstone/samples names them under files";

/** What to do about a refused file, where the reason alone does not say it; empty where it does. */
export function whatHelps({ code, reason }: Pick<InputError, "code" | "reason">, text: string): string {
  const format = formatOf(text);
  const helpFor: Partial<Readonly<Record<InputErrorCode, string>>> = {
    "wrong-format": format === undefined ? notOurs(text) : `This is a ${format}: ${USES[format]}.`,
    "unreadable-json": notJson(text, format),
    "wrong-version": "It was written for another version of masstone: see masstone --version.",
    "damaged-record":
      "Nothing was written. Bring the file and its .end back from a copy, or begin a new record.",
    "unreadable-csv":
      "A table of readings has a column for each wavelength, headed 400 nm and so on, and a row for each reading.",
    "unreadable-cgats": "Export it anew from the instrument's program, as CGATS text or as CSV.",
    "unreadable-xml": "Export it anew from the instrument's program, as CxF3 or as CSV.",
    "outside-folder": "If you trust the file that names it, say --allow-outside.",
    "unreadable-file":
      text === ""
        ? "Files that FILE names are looked for beside it, others from the folder you stand in."
        : "",
  };
  const isShape = code === "unknown-key" || /^[^"]* (is|are) needed here$/.test(reason);
  const schema =
    format && `Every key it may have: masstone/schemas/${format.split("/")[1]}.json in the package.`;
  return helpFor[code] ?? (isShape ? schema : undefined) ?? "";
}

/** The format that a text says it is of; undefined where it is none of ours. */
export function formatOf(text: string): Format | undefined {
  if (isRecord(text)) return "masstone/record";
  const [, said] = /^\s*\{[\s\S]{0,2000}?"format"\s*:\s*"([^"]{1,40})"/.exec(text) ?? [];
  return said !== undefined && Object.hasOwn(USES, said) ? (said as Format) : undefined;
}

function notJson(text: string, format: Format | undefined): string {
  if (format === "masstone/record") return `This looks like a ${format}: ${USES[format]}.`;
  return isJson(text)
    ? "Look just before that place: a comma, a quote or a bracket is missing there, or is one too many."
    : notOurs(text);
}

function notOurs(text: string): string {
  return isJson(text) ? "" : `If it holds readings: ${READINGS}.`;
}

const isJson = (text: string): boolean => /^\s*[{[]/.test(text);
