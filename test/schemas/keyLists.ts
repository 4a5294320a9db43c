import { isDeepStrictEqual } from "node:util";
import { describedValue } from "./describedValue.js";
import type { Schema } from "./schemaOfType.js";

const NOT_SHOWN = ["format", "version", "notes"];

type Schemas = Readonly<Record<string, Schema>>;

/** One key of a record, as the page lists it. */
interface Row {
  readonly key: string;
  readonly value: string;
  readonly prose: string;
}

/** A heading of the page with the rows below it. */
interface Section {
  readonly title: string;
  readonly description: string;
  readonly rows: readonly Row[];
}

/**
 * The page with its lists of keys written anew between `<!-- keys: FORMAT -->`, or `<!-- records -->`, and
 * `<!-- end -->`. Formats in `read` are listed with the records that stand in them, each key once: what two records
 * share is named in the second. Of an answer the page lists the keys, or links its schema.
 */
export function withKeyLists(page: string, schemas: Schemas, read: readonly string[]): string {
  const records = readRecords(read.map((name) => schemas[name]));
  const links = new Map(records.map(([name]) => [name, anchor(name)]));
  const formats = new Map(
    read.map((name): [string, Section] => [name, sectionOf(name, schemas[name], schemas[name], links)]),
  );
  for (const [name, { rows }] of formats) {
    for (const [record, schema] of records) {
      if (isDeepStrictEqual(rows, sectionOf(record, schema, schemas[name], links).rows)) {
        links.set(record, anchor(name));
      }
    }
  }
  const sections = [
    ...read.map((name) => sectionOf(name, schemas[name], schemas[name], links)),
    ...records
      .filter(([name]) => links.get(name) === anchor(name))
      .map(([name, schema]) => sectionOf(name, schema, { $defs: Object.fromEntries(records) }, links)),
  ];
  const parts = sections.map((section, i) => partsOf(section, sections.slice(0, i)));
  const words = sharedWords(parts.flatMap(({ own }) => own));
  const texts = parts.map((one) => listOf(one, words));
  const shown = new Set<string>();
  const written = page.replaceAll(
    /(<!-- keys: (\S+) -->\n)[\s\S]*?(<!-- end -->)/g,
    (_, start, name, end) => {
      if (!Object.hasOwn(schemas, name)) throw new Error(`there is no format ${name}`);
      shown.add(name);
      const own = sections.findIndex(({ title }) => title === name);
      const text = own < 0 ? answerList(schemas[name]) : texts[own];
      return `${start}\n${text}\n\n${end}`;
    },
  );
  for (const name of Object.keys(schemas)) {
    const isThere = shown.has(name) || (!read.includes(name) && written.includes(`(${fileOf(name)})`));
    if (!isThere) throw new Error(`nothing of ${name}`);
  }
  const recordTexts = sections.flatMap(({ title, description }, i) =>
    read.includes(title) ? [] : [`### ${title}\n\n${description}\n\n${texts[i]}\n`],
  );
  return written.replace(
    /(<!-- records -->\n)[\s\S]*?(<!-- end -->)/,
    (_, start, end) => `${start}\n${[...recordTexts, wordList(words)].join("\n")}\n${end}`,
  );
}

const fileOf = (format: string): string => `schemas/${format.split("/")[1]}.json`;

/** Where a heading can be reached. */
const anchor = (title: string): string => `#${title.toLowerCase().replace("/", "")}`;

/** The records that have a name, each once, in the order of the alphabet. */
function readRecords(schemas: readonly Schema[]): readonly (readonly [string, Schema])[] {
  const records = new Map<string, Schema>();
  for (const { $defs = {} } of schemas) {
    for (const [name, one] of Object.entries($defs as Schemas)) {
      const known = records.get(name);
      if (known && !isDeepStrictEqual(known, one)) throw new Error(`two records are called ${name}`);
      records.set(name, one);
    }
  }
  return [...records].sort(([a], [b]) => (a < b ? -1 : 1));
}

function sectionOf(
  title: string,
  schema: Schema,
  { $defs = {} }: Schema,
  links: ReadonlyMap<string, string>,
): Section {
  const rows = rowsOf(schema, "", (key, one) => ({
    key,
    value: describedValue(one, (name) => `[${name}](${links.get(name)})`),
    prose: proseFor(one, $defs as Schemas),
  }));
  return { title, description: String(schema.description ?? ""), rows };
}

/** A row for each key; those of a record without a name of its own follow with its key before theirs. */
function rowsOf(schema: Schema, parent: string, rowOf: (key: string, schema: Schema) => Row): readonly Row[] {
  const properties = (schema.properties ?? {}) as Schemas;
  const required = (schema.required ?? []) as readonly string[];
  return Object.entries(properties)
    .filter(([key, one]) => !NOT_SHOWN.includes(key) && Object.keys(one).length > 0)
    .flatMap(([key, one]) => {
      const path = `${parent}${key}`;
      const row = rowOf(required.includes(key) ? path : `${path}?`, one);
      const inner = one.type === "array" ? (one.items as Schema) : one;
      const below = `${path}${one.type === "array" ? "[]" : ""}.`;
      return inner.properties ? [row, ...rowsOf(inner, below, rowOf)] : [row];
    });
}

/** What is said of a key, else the first sentence of what is said of the record that stands there. */
function proseFor(schema: Schema, records: Schemas): string {
  if (typeof schema.description === "string") return schema.description;
  const { $ref } = (schema.type === "array" ? schema.items : schema) as Schema;
  const name = typeof $ref === "string" ? $ref.split("/").at(-1) : undefined;
  const said = name === undefined ? "" : String(records[name]?.description ?? "");
  return /^.*?[.:](?= |$)/.exec(said)?.[0].replace(/:$/, ".") ?? said;
}

/** The rows of a section that no earlier one has, and by the title of an earlier one the keys that it has too. */
interface Parts {
  readonly own: readonly Row[];
  readonly shared: ReadonlyMap<string, readonly string[]>;
}

function partsOf({ rows }: Section, earlier: readonly Section[]): Parts {
  const own: Row[] = [];
  const shared = new Map<string, readonly string[]>();
  const owners = earlier.filter((one) => rows.filter((row) => has(one, row)).length > 1);
  for (const row of rows) {
    const owner = owners.find((one) => has(one, row));
    if (owner) shared.set(owner.title, [...(shared.get(owner.title) ?? []), row.key]);
    else own.push(row);
  }
  return { own, shared };
}

const has = ({ rows }: Section, row: Row): boolean => rows.some((one) => isDeepStrictEqual(one, row));

/** Long lists of words that stand under one key more than once, by that key. */
function sharedWords(rows: readonly Row[]): ReadonlyMap<string, string> {
  const long = rows
    .filter(({ value }) => /^(`[^`]+`, ){4}/.test(value))
    .map(({ key, value }) => [bare(key), value] as const);
  return new Map(
    long.filter(([key, value], i) => long.slice(0, i).some(([k, v]) => k === key && v === value)),
  );
}

const bare = (key: string): string => key.replace("?", "").split(".").at(-1) ?? key;

/** The list of a section; keys that one line of prose is about stand in one line. */
function listOf({ own, shared }: Parts, words: ReadonlyMap<string, string>): string {
  const lines: { readonly keys: readonly string[]; readonly row: Row }[] = [];
  for (const row of own) {
    const last = lines.at(-1);
    if (last && row.prose === "" && row.value === last.row.value) {
      lines.splice(-1, 1, { ...last, keys: [...last.keys, row.key] });
    } else lines.push({ keys: [row.key], row });
  }
  return [
    ...lines.map(({ keys, row }) => `- ${keys.map(code).join(", ")}: ${textOf(row, words)}`),
    ...[...shared].map(
      ([title, keys]) => `- ${keys.map(code).join(", ")}: as in [${title}](${anchor(title)}).`,
    ),
  ].join("\n");
}

const code = (key: string): string => `\`${key}\``;

function textOf({ key, value, prose }: Row, words: ReadonlyMap<string, string>): string {
  const said = words.get(bare(key)) === value ? `[${bare(key)}](#words)` : value;
  return `${said}.${prose === "" ? "" : ` ${prose}`}`;
}

const wordList = (words: ReadonlyMap<string, string>): string =>
  `### Words\n\n${[...words].map(([key, value]) => `- ${code(key)}: ${value}.`).join("\n")}\n`;

/** The keys of an answer and what is said of each; what stands there is in the schema. */
function answerList(schema: Schema): string {
  const rows = rowsOf(schema, "", (key, one) => ({
    key,
    value: "",
    prose: proseFor(one, (schema.$defs ?? {}) as Schemas),
  }));
  return rows
    .filter(({ key }) => !key.includes("."))
    .map(({ key, prose }) => `- ${code(key)}${prose === "" ? "" : `: ${prose}`}`)
    .join("\n");
}
