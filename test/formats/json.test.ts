import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parseJson } from "../../src/formats/json.js";
import { jsonFault } from "../../src/formats/jsonFault.js";
import { refusal } from "../support/refusal.js";

const isJson = (text: string): boolean => {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
};

describe("where a text stops being JSON", () => {
  it.each([
    ["", 0],
    ["  ", 2],
    ["[1, 2", 5],
    ["[1, 2,]", 6],
    ['{"a": oops}', 6],
    ['{"a" 1}', 5],
    ['{"a": 1,}', 8],
    ["{1: 2}", 1],
    ["[1] 2", 4],
    ["[1}", 2],
    ["01", 1],
    ['["\\x"]', 1],
    ['["a\nb"]', 1],
    ["[1, NaN]", 4],
    ["root:x:0:0", 0],
    ['{"a": [true, false, null, -1.5e-3, "\\u00e9"]}', -1],
  ])("%j: %i", (text, at) => {
    expect(jsonFault(text)).toBe(at);
  });

  it("is nowhere for what the engine reads, and somewhere for what it does not", () => {
    const json = fc.jsonValue({ maxDepth: 3 }).map((value) => JSON.stringify(value, null, 1));
    const spoilt = fc
      .tuple(
        json,
        fc.nat(),
        fc.constantFrom("", ",", '"', "]", "}", "[", "{", ":", "0", "-", "\\", "e", "\n", "\u0001"),
        fc.nat(2),
      )
      .map(([text, at, put, gone]) => {
        const place = at % (text.length + 1);
        return text.slice(0, place) + put + text.slice(place + gone);
      });
    const count = { read: 0, refused: 0 };
    fc.assert(
      fc.property(fc.oneof(json, spoilt), (text) => {
        const at = jsonFault(text);
        count[isJson(text) ? "read" : "refused"]++;
        expect(at >= 0).toBe(!isJson(text));
        // What stands before the fault could have gone on to be JSON.
        expect(at <= text.length).toBe(true);
      }),
      { numRuns: 20_000, seed: 1 },
    );
    expect(Math.min(count.read, count.refused)).toBeGreaterThan(2000);
  }, 60_000);
});

describe("JSON that is refused", () => {
  it("is told by line and column, without a letter of it", () => {
    expect(refusal(() => parseJson('{\r\n "format": "x",\n  root:x }'))).toEqual({
      code: "unreadable-json",
      path: "line 3, column 3",
    });
    expect(() => parseJson("SECRET=hunter2")).toThrow(/^(?!.*(SECRET|hunter)).*\[unreadable-json\]$/);
  });

  it("nests too deep", () => {
    const nested = (depth: number) => "[".repeat(depth) + "]".repeat(depth);
    expect(parseJson(nested(100))).toHaveLength(1);
    expect(refusal(() => parseJson(nested(101))).code).toBe("too-large");
    expect(refusal(() => parseJson("[".repeat(1e6))).code).toBe("too-large");
    expect(parseJson(`["${"[".repeat(1000)}\\"${"{".repeat(1000)}"]`)).toHaveLength(1);
  });
});
