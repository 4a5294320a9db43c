/** A JSON Schema (draft 2020-12), or a part of one. */
export type JsonSchema = Readonly<Record<string, unknown>>;

/** One description of a value: how it is checked, and the JSON Schema that says the same. */
export interface Shape<T> {
  /** The value with every default in place. Throws InputError; `path` is where the value stands. */
  readonly check: (value: unknown, path: string) => T;
  readonly schema: JsonSchema;
}
