import { describedSchema } from "./describedSchema.js";
import type { Format } from "./formats.js";
import { schemaOfShape } from "./schemaOfShape.js";
import { type Schema, schemaOfType } from "./schemaOfType.js";
import type { Sources } from "./sources.js";

/** The whole JSON Schema of a format, as it is shipped. */
export function fileSchema(sources: Sources, name: string, { file, type: typeName, shape }: Format): Schema {
  const definitions = new Map<string, Schema>();
  const type = sources.typeOf(file, typeName);
  const schema = shape
    ? describedSchema(sources, schemaOfShape(shape), type, definitions)
    : schemaOfType(sources, type, definitions);
  const own = definitions.get(typeName) ?? schema;
  definitions.delete(typeName);
  const { description, required = [], ...rest } = own as { description?: string; required?: string[] };
  return {
    $schema: "https://json-schema.org/draft/2020-12/schema",
    $id: `${name}/1`,
    title: name.replace("/", " "),
    ...(description !== undefined && { description }),
    type: "object",
    required: [...new Set(["format", "version", ...required])],
    ...rest,
    ...(definitions.size > 0 && { $defs: Object.fromEntries([...definitions].sort()) }),
  };
}
