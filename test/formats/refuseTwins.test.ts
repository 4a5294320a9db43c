import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parseJson } from "../../src/formats/json.js";
import { refusal } from "../support/refusal.js";

describe("JSON with keys that stand twice", () => {
  it("is read as the engine reads it", () => {
    fc.assert(
      fc.property(fc.jsonValue(), fc.constantFrom(undefined, 2), (value, indent) => {
        const text = JSON.stringify(value, null, indent);
        expect(parseJson(text)).toEqual(JSON.parse(text));
      }),
      { numRuns: 500, seed: 3 },
    );
  });

  it.each([
    ['{"pot": {}, "pot": {}}', "pot"],
    ['{"targets": [{"name": "a"}, {"name": "b", "weight": 1, "weight": 2}]}', "targets[1].weight"],
    ['{"pot": {"white": 1, "w\\u0068ite": 2}}', "pot.white"],
    ['{"a": {"b": [[], [0, {"c": 1, "c": 1}]]}}', "a.b[1][1].c"],
    ['{"oxide red": {"x y": 1, "x y": 1}}', '["oxide red"]["x y"]'],
    ['[{"a": 1}, {"a": 1, "b": {"a": 2}, "a": 3}]', "[1].a"],
    ['{"__proto__": 1, "__proto__": 2}', "__proto__"],
  ])("%s has a key twice", (text, path) => {
    expect(refusal(() => parseJson(text))).toEqual({ code: "duplicate", path });
  });

  it("tells line and column of the second", () => {
    expect(() => parseJson('{\n  "pot": 1,\n  "pot": 2\n}')).toThrow(
      /^pot: .*line 3, column 3.*\[duplicate\]$/,
    );
  });

  it.each([
    '{"a": {"b": 1}, "c": {"b": 1}}',
    '{"a": "{\\"b\\": 1, \\"b\\": 2}", "b": ["b", "b"]}',
    '["a", "a"]',
  ])("%s has none", (text) => {
    expect(parseJson(text)).toEqual(JSON.parse(text));
  });

  it("may hold strings of millions of characters", () => {
    for (const part of ["x", '"', "\\", "\n"]) {
      const value = { a: part.repeat(2e6) };
      expect(parseJson(JSON.stringify(value))).toEqual(value);
    }
  });

  it("finds a key that is put in again, wherever that is", () => {
    const records = fc.dictionary(fc.string(), fc.jsonValue(), { minKeys: 1, noNullPrototype: true });
    fc.assert(
      fc.property(records, (value) => {
        const text = JSON.stringify(value);
        const [key] = Object.keys(JSON.parse(text));
        const twice = `${text.slice(0, -1)},${JSON.stringify(key)}:0}`;
        expect(refusal(() => parseJson(twice)).code).toBe("duplicate");
      }),
      { numRuns: 500, seed: 5 },
    );
  });
});
