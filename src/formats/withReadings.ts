import { checkRecord, checkText } from "../core/check.js";
import { InputError } from "../core/InputError.js";
import type { ReadingsFile } from "./namedReading.js";
import { type FindText, readFiles } from "./readFiles.js";

/** Name of the card in a file of readings where the job gives none. */
const CARD = "card";

/** Used where the caller passes no function to find files of readings. */
export const noTexts: FindText = (name) => {
  throw new InputError(
    "unreadable-file",
    "files",
    `nothing brings "${name}" here: put the readings themselves in`,
  );
};

/**
 * The record of a job or a plan with the readings of its `files` in place: those of each card, target and panel that has
 * none of its own, by name, and of formulas that were read. Throws `missing` where there is no reading of that name.
 */
export function withReadings(
  record: Readonly<Record<string, unknown>>,
  findText: FindText,
): Readonly<Record<string, unknown>> {
  const { files, card, cards, targets, panels, formulas, ...rest } = record;
  if (files === undefined) return record;
  const named = readFiles(files, findText);
  return {
    ...rest,
    ...(card !== undefined && { card: filled(card, "card", named, CARD) }),
    ...(cards !== undefined && { cards: eachFilled(cards, "cards", named, (i) => `card ${i + 1}`) }),
    ...(targets !== undefined && { targets: eachFilled(targets, "targets", named) }),
    ...(panels !== undefined && { panels: eachFilled(panels, "panels", named) }),
    ...(formulas !== undefined && { formulas: eachRead(formulas, "formulas", named) }),
  };
}

function eachFilled(
  list: unknown,
  path: string,
  named: readonly ReadingsFile[],
  otherwise?: (i: number) => string,
): unknown {
  if (!Array.isArray(list)) return list;
  return list.map((one, i) => filled(one, `${path}[${i}]`, named, otherwise?.(i)));
}

/** Formulas need no reading: those of which there is one get it. */
function eachRead(list: unknown, path: string, named: readonly ReadingsFile[]): unknown {
  if (!Array.isArray(list)) return list;
  return list.map((one, i) => {
    const record = checkRecord(one, `${path}[${i}]`);
    const readings = readingsOf(record.name, named);
    return record.readings === undefined && readings.length > 0 ? { ...record, readings } : record;
  });
}

function readingsOf(name: unknown, named: readonly ReadingsFile[]) {
  return named
    .flatMap(({ readings }) => readings)
    .filter((one) => one.name === name)
    .map(({ reading }) => ({ ...reading, reflectance: Array.from(reading.reflectance) }));
}

const hasSome = (list: unknown): boolean => Array.isArray(list) && list.length > 0;

function filled(value: unknown, path: string, named: readonly ReadingsFile[], otherwise?: string): unknown {
  const record = checkRecord(value, path);
  if (record.readings !== undefined || hasSome(record.colours) || hasSome(record.comparisons)) return record;
  const name = checkText(record.name ?? otherwise, `${path}.name`);
  const all = named.flatMap(({ readings }) => readings);
  const allColours = named.flatMap(({ colours = [] }) => colours);
  const readings = readingsOf(name, named);
  const colours = allColours.flatMap((one) => (one.name === name ? [one.colour] : []));
  if (readings.length > 0 || colours.length > 0) {
    return { ...record, readings, ...(colours.length > 0 && { colours }) };
  }
  const there = [...new Set([...all, ...allColours].map((one) => one.name))].join(", ");
  throw new InputError(
    "missing",
    `${path}.readings`,
    `"${name}" has no readings, neither here nor in files, which have ${there || "none"}`,
  );
}
