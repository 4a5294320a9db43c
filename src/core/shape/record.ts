import { checkRecord, pathTo, refuseUnknownKey } from "../check.js";
import { checkFormat } from "../checkFormat.js";
import type { Defaulted, Optional } from "./optional.js";
import type { Shape } from "./shape.js";

/** The key of every record for other programs' data: kept, never read. */
export const FREE = "notes";

/** Data of other programs, under the one key that is free in every record. */
export interface Noted {
  /** For other programs' data: kept, never read. */
  readonly notes?: unknown;
}

type MayBeAbsent<T, K extends keyof T> = object extends Pick<T, K> ? true : false;

type Field<Out, In, K extends keyof Out> =
  MayBeAbsent<Out, K> extends true
    ? Optional<Exclude<Out[K], undefined>>
    : K extends keyof In
      ? MayBeAbsent<In, K> extends true
        ? Defaulted<Out[K]>
        : Shape<Out[K]>
      : never;

/** A shape for every key of an interface; a missing key or a missing default does not compile. */
export type Fields<Out, In = Out> = {
  readonly [K in Exclude<keyof Out, typeof FREE>]-?: Field<Out, In, K>;
};

/** What a record may hold besides its fields. */
export interface RecordOptions {
  /** A file of its own: it may say `format` and `version`, which then have to be these. */
  readonly format?: string;
  /** Keys that others read and this record passes over. */
  readonly others?: readonly string[];
}

/** The shape of a record, which others may be made from. */
export interface RecordShape<Out, In = Out> extends Shape<Out> {
  readonly fields: Fields<Out, In>;
  readonly format: string | undefined;
}

/** What stands under a key. */
export type AnyField = Shape<unknown> | Defaulted<unknown> | Optional<unknown>;

/** Whether a key may be left out. */
export const isOptional = (field: AnyField): field is Optional<unknown> => "isOptional" in field;

/**
 * A closed record: an unknown key is refused with the nearest known one, except `notes`. `In` is the record as it may
 * be given, `Out` the record with every default in place. `undefined` counts as left out.
 * @__NO_SIDE_EFFECTS__
 */
export function record<Out extends object, In = Out>(
  fields: Fields<Out, In>,
  { format, others = [] }: RecordOptions = {},
): RecordShape<Out, In> {
  const known = fields as Readonly<Record<string, AnyField>>;
  const header = format === undefined ? [] : ["format", "version"];
  return {
    fields,
    format,
    check: (value, path) => {
      const given = checkRecord(value, path);
      const kept: Record<string, unknown> = {};
      for (const key of Object.keys(given)) {
        if (Object.hasOwn(known, key) || given[key] === undefined) continue;
        if (key === FREE) kept[key] = given[key];
        else if (format !== undefined && header.includes(key)) checkFormat(given, path, format);
        else if (!others.includes(key)) refuseUnknownKey(path, key, Object.keys(known));
      }
      const checked: Record<string, unknown> = {};
      for (const key of Object.keys(known)) {
        const field = known[key];
        const one = given[key];
        if (one !== undefined || !isOptional(field)) {
          checked[key] = (isOptional(field) ? field.shape : field).check(one, pathTo(path, key));
        } else if ("otherwise" in field) checked[key] = field.otherwise;
      }
      return { ...checked, ...kept } as Out;
    },
    form: { kind: "record", fields, format, others },
  };
}
