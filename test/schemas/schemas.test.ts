import { readdirSync, readFileSync } from "node:fs";
import Ajv from "ajv/dist/2020.js";
import { describe, expect, it } from "vitest";
import { root } from "../package/consumer.js";
import { fileSchema } from "./fileSchema.js";
import { FORMATS, SHAPES } from "./formats.js";
import { withKeyLists } from "./keyLists.js";
import { readSources } from "./sources.js";

const folder = `${root}/docs/schemas`;
const page = `${root}/docs/file-formats.md`;
const fileOf = (format: string) => `${format.split("/")[1]}.json`;
const sources = readSources(
  Object.values(FORMATS).map(({ file }) => file),
  SHAPES,
);
const schemas = Object.fromEntries(
  Object.entries(FORMATS).map(([name, format]) => [name, fileSchema(sources, name, format)]),
);

describe("the schemas in the package", () => {
  it("are those of the formats, one each", () => {
    expect(readdirSync(folder).sort()).toEqual(Object.keys(FORMATS).map(fileOf).sort());
  });

  it.each(Object.entries(schemas))(
    "%s is what shape and interface say; `npm run schemas` writes it anew",
    async (name, schema) => {
      expect(() => new Ajv({ strict: true, allowUnionTypes: true }).compile(schema)).not.toThrow();
      await expect(`${JSON.stringify(schema, null, 2)}\n`).toMatchFileSnapshot(`${folder}/${fileOf(name)}`);
    },
  );

  it("are what the page on file formats lists", async () => {
    const read = Object.keys(FORMATS).filter((name) => FORMATS[name as keyof typeof FORMATS].shape);
    await expect(withKeyLists(readFileSync(page, "utf8"), schemas, read)).toMatchFileSnapshot(page);
  });
});
