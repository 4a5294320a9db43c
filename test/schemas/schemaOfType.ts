import ts from "typescript";
import { describedSchema } from "./describedSchema.js";
import { schemaOfShape } from "./schemaOfShape.js";
import { nameOf, proseOf, proseOfType, type Sources } from "./sources.js";

/** A JSON Schema that is being built. */
export type Schema = { [key: string]: unknown };

/** Schemas of the types that have a name, so that each is said but once. */
export type Definitions = Map<string, Schema>;

/** A comment that speaks of Infinity is one of a number that JSON writes as null. */
const MAY_BE_INFINITE = /\bInfinity\b/;

const isObject = (type: ts.Type): boolean => (type.flags & ts.TypeFlags.Object) !== 0;
const isIntersection = (type: ts.Type): boolean => type.isIntersection();

/**
 * The JSON Schema of what a type looks like in JSON: all that is said of an answer, which is written and not checked.
 * Records are closed but for `notes`; named ones go into `definitions`.
 */
export function schemaOfType(sources: Sources, type: ts.Type, definitions: Definitions): Schema {
  const { checker } = sources;
  const of = (inner: ts.Type) => schemaOfType(sources, inner, definitions);
  if (type.flags & ts.TypeFlags.Unknown) return {};
  if (type.flags & ts.TypeFlags.Null) return { type: "null" };
  if (type.flags & ts.TypeFlags.BooleanLike) return { type: "boolean" };
  if (type.isStringLiteral() || type.isNumberLiteral()) return { const: type.value };
  if (type.flags & (ts.TypeFlags.String | ts.TypeFlags.TemplateLiteral)) return { type: "string" };
  if (type.flags & ts.TypeFlags.Number) return { type: "number" };
  if (type.isUnion()) return schemaOfUnion(sources, type, definitions);
  if (checker.isTupleType(type)) {
    const items = checker.getTypeArguments(type as ts.TypeReference).map(of);
    return { type: "array", minItems: items.length, maxItems: items.length, items: items[0] };
  }
  if (checker.isArrayType(type) || type.symbol?.name === "ArrayLike") {
    return { type: "array", items: of(checker.getTypeArguments(type as ts.TypeReference)[0]) };
  }
  const index = checker.getIndexInfoOfType(type, ts.IndexKind.String);
  if (index) return { type: "object", additionalProperties: of(index.type) };
  if (isObject(type) || isIntersection(type)) return schemaOfRecord(sources, type, definitions);
  throw new Error(`no schema for the type ${checker.typeToString(type)}`);
}

function schemaOfUnion(sources: Sources, union: ts.UnionType, definitions: Definitions): Schema {
  const { checker } = sources;
  const types = union.types.filter(({ flags }) => (flags & ts.TypeFlags.Undefined) === 0);
  const words = types.filter((one) => one.isStringLiteral()).map((one) => one.value);
  const isBoolean = types.some(({ flags }) => (flags & ts.TypeFlags.BooleanLiteral) !== 0);
  const records = types.filter((one) => isObject(one) || isIntersection(one));
  const keys = records.map((one) =>
    checker
      .getPropertiesOfType(one)
      .map(({ name }) => name)
      .sort()
      .join(),
  );
  const isOne = records.length > 1 && keys.every((key) => key === keys[0]) && records.length === types.length;
  // Records that differ only in the word of one key.
  if (isOne && records.every(isIntersection)) return schemaOfRecord(sources, union, definitions);
  const others = types.filter(
    (one) => !one.isStringLiteral() && (one.flags & ts.TypeFlags.BooleanLiteral) === 0,
  );
  const schemas = [
    ...(words.length > 0 ? [{ enum: words }] : []),
    ...(isBoolean ? [{ type: "boolean" }] : []),
    ...others.map((one) => schemaOfType(sources, one, definitions)),
  ];
  return schemas.length === 1 ? schemas[0] : { anyOf: schemas };
}

function schemaOfRecord(sources: Sources, type: ts.Type, definitions: Definitions): Schema {
  const { checker } = sources;
  const name = nameOf(type);
  if (name !== undefined && definitions.has(name)) return { $ref: `#/$defs/${name}` };
  if (name !== undefined && Object.hasOwn(sources.shapes, name)) {
    return describedSchema(sources, schemaOfShape(sources.shapes[name]), type, definitions);
  }
  const schema: Schema = {};
  if (name !== undefined) {
    definitions.set(name, schema);
    const prose = proseOfType(checker, type);
    if (prose !== "") schema.description = prose;
  }
  const properties = checker.getPropertiesOfType(type).filter((one) => one.name !== "notes");
  const required = properties
    .filter(({ flags }) => (flags & ts.SymbolFlags.Optional) === 0)
    .map((one) => one.name);
  Object.assign(schema, {
    type: "object",
    ...(required.length > 0 && { required }),
    properties: {
      ...Object.fromEntries(properties.map((one) => [one.name, schemaOfProperty(sources, one, definitions)])),
      notes: {},
    },
    additionalProperties: false,
  });
  return name === undefined ? schema : { $ref: `#/$defs/${name}` };
}

function schemaOfProperty(sources: Sources, property: ts.Symbol, definitions: Definitions): Schema {
  const { checker } = sources;
  const type = checker.getTypeOfSymbol(property);
  const schema = schemaOfType(sources, type, definitions);
  const prose = proseOf(checker, property) || (isObject(type) ? "" : proseOfType(checker, type));
  const said = MAY_BE_INFINITE.test(prose) ? orNull(schema) : schema;
  return prose === "" ? said : { description: prose, ...said };
}

/** With null in the place of every number. */
function orNull(schema: Schema): Schema {
  if (schema.type === "number") return { type: ["number", "null"] };
  return schema.type === "array" ? { ...schema, items: orNull(schema.items as Schema) } : schema;
}
