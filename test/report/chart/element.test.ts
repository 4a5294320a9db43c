import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { element, escaped, rounded } from "../../../src/report/chart/element.js";
import { parseMarkup } from "../parseMarkup.js";

describe("element", () => {
  it("escapes what comes as a string and nothing that is markup", () => {
    const inner = element("b", { title: '"<&>"' }, "a < b & c");
    expect(element("p", {}, inner, 'say "no"').markup).toBe(
      '<p><b title="&quot;&lt;&amp;&gt;&quot;">a &lt; b &amp; c</b>say &quot;no&quot;</p>',
    );
  });

  it("closes itself only without children, and leaves out what is undefined", () => {
    expect(element("td", { class: undefined, x: 1 / 3 }, "").markup).toBe('<td x="0.33"></td>');
    expect(element("path", {}).markup).toBe("<path/>");
  });

  it("gives well-formed XML for any text, which comes back where XML can hold it", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary" }), fc.string({ unit: "grapheme" }), (any, printable) => {
        const node = parseMarkup(element("p", { title: any }, `${any}|`, printable).markup);
        expect(node.text.split("|").at(-1) ?? "").toBe(printable.split("|").at(-1));
        expect(escaped(any)).not.toMatch(/[<>"]/);
      }),
    );
  });

  it("puts U+FFFD for control codes and lone surrogates", () => {
    expect(escaped("a\u0000b\u001fc\ud800d\uffff")).toBe("a\uFFFDb\uFFFDc\uFFFDd\uFFFD");
  });
});

describe("rounded", () => {
  it.each([
    [12.3456, "12.35"],
    [3, "3"],
    [-0.001, "0"],
    [1e6, "1000000"],
  ])("writes %d as %s", (value, text) => {
    expect(rounded(value)).toBe(text);
  });
});
