import { isDeepStrictEqual } from "node:util";
import type { Schema } from "./schemaOfType.js";

const NOT_SHOWN = ["format", "version", "notes"];

/**
 * A page with its tables written anew between `<!-- table: FORMAT -->`, or `<!-- records -->`, and `<!-- end -->`.
 * Records that stand in what is `read` have tables; those of answers alone are left to the schemas.
 */
export function withTables(
  page: string,
  schemas: Readonly<Record<string, Schema>>,
  read: readonly string[],
): string {
  const shown = new Set<string>();
  const records = new Map(read.flatMap((name) => Object.entries(recordsOf(schemas[name]))));
  const written = page.replaceAll(
    /(<!-- table: (\S+) -->\n)[\s\S]*?(<!-- end -->)/g,
    (_, start, name, end) => {
      if (!Object.hasOwn(schemas, name)) throw new Error(`there is no format ${name}`);
      shown.add(name);
      const file = `schemas/${name.split("/")[1]}.json`;
      const linked = table(schemas[name], recordsOf(schemas[name])).replaceAll(
        /\[(\w+)\]\(#\w+\)/g,
        (link, record) => (records.has(record) ? link : `[${record}](${file})`),
      );
      return `${start}\n${linked}\n\n${end}`;
    },
  );
  const missing = Object.keys(schemas).filter((name) => !shown.has(name));
  if (missing.length > 0) throw new Error(`no table of ${missing.join(", ")}`);
  return written.replace(
    /(<!-- records -->\n)[\s\S]*?(<!-- end -->)/,
    (_, start, end) => `${start}\n${recordTables(read.map((name) => schemas[name]))}\n${end}`,
  );
}

/** Tables of the records that have a name, each once. */
function recordTables(schemas: readonly Schema[]): string {
  const records = new Map<string, Schema>();
  for (const schema of schemas) {
    for (const [name, one] of Object.entries(recordsOf(schema))) {
      const known = records.get(name);
      if (known && !isDeepStrictEqual(known, one)) throw new Error(`two records are called ${name}`);
      records.set(name, one);
    }
  }
  return [...records]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(
      ([name, one]) =>
        `### ${name}\n\n${one.description ?? ""}\n\n${table(one, Object.fromEntries(records))}\n`,
    )
    .join("\n");
}

/** Where a record has its table. */
const anchor = (name: string): string => `#${name.toLowerCase()}`;

type Records = Readonly<Record<string, Schema>>;

const recordsOf = ({ $defs = {} }: Schema): Records => $defs as Records;

function table(schema: Schema, records: Records): string {
  return ["| key | what may stand there | |", "|---|---|---|", ...rows(schema, records, "")].join("\n");
}

/** A row for each key; records without a name of their own are shown key by key. */
function rows(schema: Schema, records: Records, parent: string): readonly string[] {
  const properties = (schema.properties ?? {}) as Readonly<Record<string, Schema>>;
  const required = (schema.required ?? []) as readonly string[];
  return Object.entries(properties)
    .filter(([key, one]) => !NOT_SHOWN.includes(key) && Object.keys(one).length > 0)
    .flatMap(([key, one]) => {
      const path = `${parent}${key}`;
      const star = required.includes(key) ? "" : "*";
      const row = `| \`${path}\`${star} | ${values(one)} | ${cell(proseFor(one, records))} |`;
      const inner = one.type === "array" ? (one.items as Schema) : one;
      return inner.properties
        ? [row, ...rows(inner, records, `${path}${one.type === "array" ? "[]" : ""}.`)]
        : [row];
    });
}

/** What is said of a key, else the first sentence of what is said of the record that stands there. */
function proseFor(schema: Schema, records: Records): string {
  if (typeof schema.description === "string") return schema.description;
  const { $ref } = (schema.type === "array" ? schema.items : schema) as Schema;
  const name = typeof $ref === "string" ? $ref.split("/").at(-1) : undefined;
  const said = name === undefined ? "" : String(records[name]?.description ?? "");
  return /^.*?[.:](?= |$)/.exec(said)?.[0].replace(/:$/, ".") ?? said;
}

const cell = (text: string): string => text.replaceAll("|", "\\|");

/** What may stand under a key, in words. */
function values(schema: Schema): string {
  const { $ref, enum: words, const: word, anyOf, oneOf, type, default: otherwise } = schema;
  const said = otherwise === undefined ? "" : `; ${otherwise} when absent`;
  if (typeof $ref === "string") {
    const name = $ref.split("/").at(-1) ?? "";
    return `[${name}](${anchor(name)})`;
  }
  if (Array.isArray(words)) return `${words.map((one) => `\`${one}\``).join(", ")}${said}`;
  if (word !== undefined) return `\`${word}\``;
  const choices = (oneOf ?? (type === undefined ? anyOf : undefined)) as readonly Schema[] | undefined;
  if (choices) return choices.map(values).join(" or ");
  if (Array.isArray(type)) return type.join(" or ");
  switch (type) {
    case "array":
      return `list of ${values(schema.items as Schema)}${size(schema)}`;
    case "object":
      if (schema.properties) return variant(schema);
      return typeof schema.additionalProperties === "object"
        ? `by name: ${values(schema.additionalProperties as Schema)}`
        : "record";
    case "string":
      return "text";
    case undefined:
      return "anything";
    default:
      return `${type === "integer" ? "whole number" : type}${range(schema)}${said}`;
  }
}

/** A record that is told by a word, or one that is shown key by key. */
function variant(schema: Schema): string {
  const properties = schema.properties as Readonly<Record<string, Schema>>;
  const tag = Object.values(properties).find((one) => one.const !== undefined);
  if (!tag) return "record";
  const others = Object.keys(properties).filter((key) => properties[key] !== tag && !NOT_SHOWN.includes(key));
  return `\`${tag.const}\`${others.length > 0 ? ` (${others.map((key) => `\`${key}\``).join(", ")})` : ""}`;
}

function size({ minItems = 0, maxItems = 10_000 }: Schema): string {
  if (minItems === maxItems) return `, ${minItems} of them`;
  const least = Number(minItems) > 0 ? `, at least ${minItems}` : "";
  return Number(maxItems) < 10_000 ? `${least}, at most ${maxItems}` : least;
}

function range(schema: Schema): string {
  const [zero, limits = schema] = (schema.anyOf ?? []) as readonly Schema[];
  const { minimum, maximum, exclusiveMinimum, exclusiveMaximum } = limits;
  const low = exclusiveMinimum === undefined ? minimum : `>${exclusiveMinimum}`;
  const high = exclusiveMaximum === undefined ? maximum : `<${exclusiveMaximum}`;
  const first = zero ? " 0, or" : "";
  if (low === undefined && high === undefined) return "";
  if (high === undefined || high === Number.MAX_SAFE_INTEGER) {
    return String(low).startsWith(">") ? `${first} above ${String(low).slice(1)}` : `${first} from ${low}`;
  }
  return `${first} ${low ?? ""} … ${high}`;
}
