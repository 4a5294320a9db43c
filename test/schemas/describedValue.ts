import type { Schema } from "./schemaOfType.js";

const NOT_SHOWN = ["format", "version", "notes"];

/** What may stand under a key, in words; `link` is the link to a record that has a name. */
export function describedValue(schema: Schema, link: (name: string) => string): string {
  const { $ref, enum: words, const: word, anyOf, oneOf, type, default: otherwise } = schema;
  const said = otherwise === undefined ? "" : ` = ${otherwise}`;
  const of = (inner: unknown) => describedValue(inner as Schema, link);
  if (typeof $ref === "string") return link($ref.split("/").at(-1) ?? "");
  if (Array.isArray(words)) return `${words.map((one) => `\`${one}\``).join(", ")}${said}`;
  if (word !== undefined) return `\`${word}\``;
  const choices = (oneOf ?? (type === undefined ? anyOf : undefined)) as readonly Schema[] | undefined;
  if (choices) return choices.map(of).join(" or ");
  if (Array.isArray(type)) return type.join(" or ");
  switch (type) {
    case "array":
      return `list of ${of(schema.items)}${size(schema)}`;
    case "object":
      if (schema.properties) return variant(schema);
      return typeof schema.additionalProperties === "object"
        ? `by name: ${of(schema.additionalProperties)}`
        : "record";
    case "string":
      return "text";
    case undefined:
      return "anything";
    default:
      return `${range(schema)}${said}`;
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
  const whole = schema.type === "integer" ? "whole number " : "";
  const [zero, limits = schema] = (schema.anyOf ?? []) as readonly Schema[];
  const { minimum, maximum, exclusiveMinimum, exclusiveMaximum } = limits;
  const low = exclusiveMinimum === undefined ? minimum : `>${exclusiveMinimum}`;
  const high = exclusiveMaximum === undefined ? maximum : `<${exclusiveMaximum}`;
  const first = zero ? "0, or " : "";
  if (low === undefined && high === undefined) return whole === "" ? "number" : "whole number";
  if (high === undefined || high === Number.MAX_SAFE_INTEGER) {
    return String(low).startsWith(">")
      ? `${first}${whole || "number "}above ${String(low).slice(1)}`
      : `${first}${whole || "number "}from ${low}`;
  }
  return `${first}${whole}${low ?? ""} … ${high}`;
}
