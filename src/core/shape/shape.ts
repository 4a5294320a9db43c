import type { Range } from "../check.js";

/** A JSON Schema (draft 2020-12), or a part of one. */
export type JsonSchema = Readonly<Record<string, unknown>>;

/** Description of a shape as data; JSON Schemas are made from it, outside the bundles. */
export type Form =
  | { readonly kind: "number"; readonly range: Range }
  | { readonly kind: "text" }
  | { readonly kind: "word"; readonly words: readonly string[] }
  | { readonly kind: "list"; readonly entry: AnyShape; readonly min: number; readonly max: number }
  | { readonly kind: "map"; readonly entry: AnyShape; readonly key: AnyShape | undefined }
  | {
      readonly kind: "record";
      readonly fields: object;
      readonly format: string | undefined;
      readonly others: readonly string[];
    }
  | { readonly kind: "variants"; readonly tag: string; readonly cases: ReadonlyMap<string, AnyShape> }
  | { readonly kind: "nameOr"; readonly shape: AnyShape }
  | { readonly kind: "rule"; readonly shape: AnyShape; readonly schema: JsonSchema }
  | { readonly kind: "other"; readonly schema: JsonSchema };

/** One description of a value: how it is checked, and what can be said of it. */
export interface Shape<T> {
  /** The value with every default in place. Throws InputError; `path` is where the value stands. */
  readonly check: (value: unknown, path: string) => T;
  readonly form: Form;
}

/** A shape of any value. */
export type AnyShape = Shape<unknown>;
