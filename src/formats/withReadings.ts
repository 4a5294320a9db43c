import { checkRecord, checkText } from "../core/check.js";
import { InputError } from "../core/InputError.js";
import type { ReadingsFile } from "./namedReading.js";
import { type FindText, readFiles } from "./readFiles.js";

/** What the card is called in a file of readings where the job does not name it. */
const CARD = "card";

/** Where the caller brings no files of readings. */
export const noTexts: FindText = (name) => {
  throw new InputError(
    "unreadable-file",
    "files",
    `nothing brings "${name}" here: put the readings themselves in`,
  );
};

/**
 * The record of a job with the readings of its `files` in place: those of each card and each target that has none of
 * its own, by name. Throws `missing` where there is no reading of that name.
 */
export function withReadings(
  record: Readonly<Record<string, unknown>>,
  findText: FindText,
): Readonly<Record<string, unknown>> {
  const { files, card, cards, targets, ...rest } = record;
  if (files === undefined) return record;
  const named = readFiles(files, findText);
  return {
    ...rest,
    ...(card !== undefined && { card: filled(card, "card", named, CARD) }),
    ...(cards !== undefined && { cards: eachFilled(cards, "cards", named, (i) => `card ${i + 1}`) }),
    ...(targets !== undefined && { targets: eachFilled(targets, "targets", named) }),
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

const hasSome = (list: unknown): boolean => Array.isArray(list) && list.length > 0;

function filled(value: unknown, path: string, named: readonly ReadingsFile[], otherwise?: string): unknown {
  const record = checkRecord(value, path);
  if (record.readings !== undefined || hasSome(record.colours) || hasSome(record.comparisons)) return record;
  const name = checkText(record.name ?? otherwise, `${path}.name`);
  const all = named.flatMap(({ readings }) => readings);
  const allColours = named.flatMap(({ colours = [] }) => colours);
  const own = all.filter((one) => one.name === name);
  const colours = allColours.flatMap((one) => (one.name === name ? [one.colour] : []));
  if (own.length > 0 || colours.length > 0) {
    return {
      ...record,
      readings: own.map(({ reading }) => ({ ...reading, reflectance: Array.from(reading.reflectance) })),
      ...(colours.length > 0 && { colours }),
    };
  }
  const there = [...new Set([...all, ...allColours].map((one) => one.name))].join(", ");
  throw new InputError(
    "missing",
    `${path}.readings`,
    `"${name}" has no readings, neither here nor in files, which have ${there || "none"}`,
  );
}
