import { isDeepStrictEqual } from "node:util";
import ts from "typescript";
import type { Definitions, Schema } from "./schemaOfType.js";
import { nameOf, present, proseOf, proseOfType, type Sources } from "./sources.js";

const FREE = ["format", "version", "notes"];

/**
 * The schema of a shape with the prose of the interface that it is tied to: both are walked side by side, and have to
 * have the same keys. Records whose interface has a name go into `definitions`.
 */
export function describedSchema(
  sources: Sources,
  schema: Schema,
  type: ts.Type,
  definitions: Definitions,
): Schema {
  const { checker } = sources;
  const within = (inner: unknown, of: ts.Type) =>
    describedSchema(sources, inner as Schema, present(checker, of), definitions);
  if (Array.isArray(schema.oneOf)) {
    const members = present(checker, type).isUnion() ? (type as ts.UnionType).types : [type];
    return {
      ...schema,
      oneOf: schema.oneOf.map((one: Schema) => within(one, memberFor(checker, one, members))),
    };
  }
  if (schema.type === "array") {
    const [entry] = checker.getTypeArguments(type as ts.TypeReference);
    return { ...schema, items: entry === undefined ? schema.items : within(schema.items, entry) };
  }
  if (schema.type !== "object") return schema;
  if (typeof schema.additionalProperties === "object") {
    const entry = checker.getIndexInfoOfType(type, ts.IndexKind.String)?.type ?? firstProperty(checker, type);
    return { ...schema, additionalProperties: within(schema.additionalProperties, entry) };
  }
  return schema.properties === undefined ? schema : describedRecord(sources, schema, type, definitions);
}

function describedRecord(sources: Sources, schema: Schema, type: ts.Type, definitions: Definitions): Schema {
  const { checker } = sources;
  const symbols = checker.getPropertiesOfType(type).filter(({ name }) => !FREE.includes(name));
  const own = schema.properties as Readonly<Record<string, Schema>>;
  const others = Object.keys(own).filter((key) => isDeepStrictEqual(own[key], {}));
  const keys = Object.keys(own).filter((key) => !FREE.includes(key) && !others.includes(key));
  const names = symbols.map(({ name }) => name);
  if (!isDeepStrictEqual([...keys].sort(), [...names].sort())) {
    throw new Error(
      `${checker.typeToString(type)}: ${names.join()} in the interface, ${keys.join()} in the shape`,
    );
  }
  const properties = symbols.map((symbol): [string, Schema] => {
    const inner = present(checker, checker.getTypeOfSymbol(symbol));
    const prose =
      proseOf(checker, symbol) || (nameOf(inner) && isRecord(inner) ? "" : proseOfType(checker, inner));
    const described = describedSchema(sources, own[symbol.name], inner, definitions);
    return [symbol.name, prose === "" ? described : { description: prose, ...described }];
  });
  const header = ["format", "version"].filter((key) => own[key] !== undefined && !others.includes(key));
  const kept = (some: readonly string[]) => some.map((key): [string, Schema] => [key, own[key]]);
  const whole = {
    ...schema,
    properties: Object.fromEntries([...kept(header), ...properties, ...kept(others)]),
  };
  const name = nameOf(type);
  if (name === undefined) return whole;
  const prose = proseOfType(checker, type);
  const definition = prose === "" ? whole : { description: prose, ...whole };
  const known = definitions.get(name);
  if (known && !isDeepStrictEqual(known, definition)) throw new Error(`there are two shapes of ${name}`);
  definitions.set(name, definition);
  return { $ref: `#/$defs/${name}` };
}

/** Of a union the member that a schema speaks of: by its word for a kind, else the text or what is none. */
function memberFor(checker: ts.TypeChecker, schema: Schema, members: readonly ts.Type[]): ts.Type {
  const properties = (schema.properties ?? {}) as Readonly<Record<string, Schema>>;
  const found = members.find((member) => {
    if (schema.type !== "object") return (member.flags & ts.TypeFlags.StringLike) !== 0;
    if ((member.flags & ts.TypeFlags.Object) === 0) return false;
    return Object.entries(properties).every(([key, { const: word }]) => {
      const symbol = checker.getPropertyOfType(member, key);
      const own = symbol && checker.getTypeOfSymbol(symbol);
      return (
        word === undefined ||
        key === "format" ||
        key === "version" ||
        (own?.isStringLiteral() && own.value === word)
      );
    });
  });
  if (!found) throw new Error(`no member of the union for ${JSON.stringify(schema).slice(0, 100)}`);
  return found;
}

/** Whether what is said of a type stands with its definition. */
const isRecord = (type: ts.Type): boolean => type.symbol !== undefined && type.aliasSymbol === undefined;

function firstProperty(checker: ts.TypeChecker, type: ts.Type): ts.Type {
  return checker.getTypeOfSymbol(checker.getPropertiesOfType(type)[0]);
}
