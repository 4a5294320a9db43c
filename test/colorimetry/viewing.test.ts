import { describe, expect, it } from "vitest";
import { VIEWING } from "../../src/colorimetry/viewing.js";

const d65 = { name: "D65" };

describe("VIEWING", () => {
  it("gives every illuminant a weight, 1 unless told otherwise", () => {
    const viewing = {
      observer: "1964-10",
      illuminants: [d65, { name: "A", weight: 0.5 }, { name: "D6000K", weight: 0 }],
    };
    expect(VIEWING.check(viewing, "viewing")).toEqual({
      observer: "1964-10",
      illuminants: [
        { name: "D65", weight: 1 },
        { name: "A", weight: 0.5 },
        { name: "D6000K", weight: 0 },
      ],
    });
  });

  it.each([
    [undefined, "missing", "viewing"],
    [{ illuminants: [d65] }, "missing", "viewing.observer"],
    [{ observer: "1964-10" }, "missing", "viewing.illuminants"],
    [{ observer: "1964-10", illuminants: [] }, "wrong-length", "viewing.illuminants"],
    [{ observer: "CIE 1964", illuminants: [d65] }, "unknown-observer", "viewing.observer"],
    [
      { observer: "1964-10", illuminants: [{ name: "D66" }] },
      "unknown-illuminant",
      "viewing.illuminants[0].name",
    ],
    [{ observer: "1964-10", illuminants: ["D65"] }, "wrong-type", "viewing.illuminants[0]"],
    [{ observer: "1964-10", illuminants: [d65, d65] }, "duplicate", "viewing.illuminants[1].name"],
    [
      { observer: "1964-10", illuminants: [{ ...d65, weight: -1 }] },
      "out-of-range",
      "viewing.illuminants[0].weight",
    ],
    [
      { observer: "1964-10", illuminants: [{ ...d65, weight: Number.POSITIVE_INFINITY }] },
      "not-finite",
      "viewing.illuminants[0].weight",
    ],
    [
      { observer: "1964-10", illuminants: [{ ...d65, weight: null }] },
      "wrong-type",
      "viewing.illuminants[0].weight",
    ],
    [{ observer: "1964-10", illuminants: [{ ...d65, weight: 0 }] }, "out-of-range", "viewing.illuminants"],
    [{ observer: "1964-10", illuminants: [d65], obsever: "x" }, "unknown-key", "viewing.obsever"],
    [
      { observer: "1964-10", illuminants: [{ ...d65, wieght: 2 }] },
      "unknown-key",
      "viewing.illuminants[0].wieght",
    ],
  ])("refuses %j with %s at %s", (value, code, path) => {
    expect(() => VIEWING.check(value, "viewing")).toThrow(expect.objectContaining({ code, path }));
  });
});
