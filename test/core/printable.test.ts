import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { isPrintableLine, printable } from "../../src/core/printable.js";

/** Unicode 16, PropList.txt: Bidi_Control. */
const BIDI = [0x61c, 0x200e, 0x200f, 0x202a, 0x202b, 0x202c, 0x202d, 0x202e, 0x2066, 0x2067, 0x2068, 0x2069];
const CONTROLS = [...Array(0x20).keys(), ...Array.from({ length: 0x21 }, (_, i) => 0x7f + i)];

describe("a line in which every character shows as itself", () => {
  it.each([...BIDI, ...CONTROLS])("has no U+%i", (code) => {
    const text = `gate ${String.fromCharCode(code)}x`;
    expect(isPrintableLine(text)).toBe(false);
    const shown = code === 0x0a ? "\n" : `\\u${code.toString(16).padStart(4, "0")}`;
    expect(printable(text)).toBe(`gate ${shown}x`);
  });

  it.each(["Grün 3", "зелёный", "ירוק", "أخضر", "緑", "👩‍🎨", "a\u00A0b", "\u2028", "=1+1", "'"])(
    "may be %s",
    (text) => {
      expect(isPrintableLine(text)).toBe(true);
      expect(printable(text)).toBe(text);
    },
  );

  it("JSON keeps its value when it is made printable", () => {
    fc.assert(
      fc.property(fc.jsonValue({ stringUnit: "binary" }), (value) => {
        expect(JSON.parse(printable(JSON.stringify(value, null, 2)))).toEqual(
          JSON.parse(JSON.stringify(value)),
        );
      }),
      { seed: 1 },
    );
  });
});
