import { type Range, SIZE_LIMIT } from "../../src/core/check.js";
import { type AnyField, FREE, isOptional } from "../../src/core/shape/record.js";
import type { AnyShape, Form } from "../../src/core/shape/shape.js";
import type { Schema } from "./schemaOfType.js";

/** The JSON Schema of what a shape lets pass. */
export function schemaOfShape({ form }: Pick<AnyShape, "form">): Schema {
  switch (form.kind) {
    case "number":
      return schemaOfNumber(form.range);
    case "text":
      return { type: "string", minLength: 1, maxLength: SIZE_LIMIT, pattern: "\\S" };
    case "word":
      return { enum: form.words };
    case "list": {
      const { entry, min, max } = form;
      return { type: "array", ...(min > 0 && { minItems: min }), maxItems: max, items: schemaOfShape(entry) };
    }
    case "map":
      return {
        type: "object",
        maxProperties: SIZE_LIMIT,
        ...(form.key && { propertyNames: schemaOfShape(form.key) }),
        additionalProperties: schemaOfShape(form.entry),
      };
    case "record":
      return schemaOfFields(form);
    case "variants": {
      const { tag, cases } = form;
      const variants = [...cases].map(([word, shape]) => tagged(schemaOfShape(shape), tag, word));
      return { type: "object", required: [tag], oneOf: variants };
    }
    case "nameOr":
      return { oneOf: [schemaOfShape({ form: { kind: "text" } }), schemaOfShape(form.shape)] };
    case "rule":
      return { ...schemaOfShape(form.shape), ...form.schema };
    case "other":
      return { ...form.schema };
  }
}

function schemaOfNumber({ min, max, aboveMin, belowMax, orZero, whole }: Range): Schema {
  const limits = {
    ...(min !== undefined && { [aboveMin ? "exclusiveMinimum" : "minimum"]: min }),
    ...(max !== undefined && { [belowMax ? "exclusiveMaximum" : "maximum"]: max }),
  };
  return { type: whole ? "integer" : "number", ...(orZero ? { anyOf: [{ const: 0 }, limits] } : limits) };
}

function schemaOfFields({ fields, format, others }: Extract<Form, { kind: "record" }>): Schema {
  const known = fields as Readonly<Record<string, AnyField>>;
  const keys = Object.keys(known);
  const required = keys.filter((key) => !isOptional(known[key]));
  return {
    type: "object",
    ...(required.length > 0 && { required }),
    properties: {
      ...(format !== undefined && { format: { const: format }, version: { const: 1 } }),
      ...Object.fromEntries(keys.map((key) => [key, schemaOfField(known[key])])),
      ...Object.fromEntries(others.map((key) => [key, {}])),
      [FREE]: {},
    },
    additionalProperties: false,
  };
}

function schemaOfField(field: AnyField): Schema {
  if (!isOptional(field)) return schemaOfShape(field);
  const { otherwise } = field as { readonly otherwise?: unknown };
  const isPlain = typeof otherwise === "number" || typeof otherwise === "string";
  return { ...schemaOfShape(field.shape), ...(isPlain && { default: otherwise }) };
}

function tagged(schema: Schema, tag: string, word: string): Schema {
  const { required = [], properties, ...rest } = schema as { required?: string[]; properties: object };
  return { ...rest, required: [tag, ...required], properties: { [tag]: { const: word }, ...properties } };
}
