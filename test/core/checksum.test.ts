import { describe, expect, it } from "vitest";
import { checksum } from "../../src/core/checksum.js";

describe("checksum", () => {
  it("is FNV-1a of the text: its offset where there is none, one step of its rule per character", () => {
    expect(checksum(undefined)).toBe("811c9dc5");
    const step = (hash: bigint, character: string) =>
      ((hash ^ BigInt(character.charCodeAt(0))) * 16777619n) % 2n ** 32n;
    const expected = [..."[7]"].reduce(step, 0x811c9dc5n).toString(16).padStart(8, "0");
    expect(checksum([7])).toBe(expected);
  });

  it("does not depend on the order of keys, nor on a way through JSON, and notices every change", () => {
    const value = { b: [1, 2.5, { d: null, c: "x" }], a: 0.1 };
    expect(checksum({ a: 0.1, b: [1, 2.5, { c: "x", d: null }] })).toBe(checksum(value));
    expect(checksum(JSON.parse(JSON.stringify(value)))).toBe(checksum(value));
    expect(checksum({ ...value, a: 0.1 + 2e-17 })).not.toBe(checksum(value));
  });
});
