import { describe, expect, it } from "vitest";
import { checkGrams, gramsById, gramsInOrder } from "../../src/toners/pot.js";
import { refusal } from "../support/refusal.js";
import { smallSet } from "./smallSet.js";

const { toners } = smallSet();

describe("checkGrams", () => {
  it("takes amounts by id, none included", () => {
    expect(checkGrams({ "oxide red": 12.5, white: 0 }, "pot", toners)).toEqual({
      "oxide red": 12.5,
      white: 0,
    });
    expect(checkGrams({}, "pot", toners)).toEqual({});
  });

  it.each([
    ["nothing", undefined, "missing", "pot"],
    ["a list", [10, 20, 30], "wrong-type", "pot"],
    ["a map", new Map([["white", 10]]), "wrong-type", "pot"],
    ["an unknown toner", { white: 1, blue: 2 }, "unknown-toner", "pot.blue"],
    ["a toner of another case", { White: 1 }, "unknown-toner", "pot.White"],
    ["a key __proto__", JSON.parse('{"__proto__": 5}'), "unknown-toner", "pot.__proto__"],
    ["less than nothing", { "oxide red": -0.1 }, "out-of-range", 'pot["oxide red"]'],
    ["more than a tonne", { white: 1_000_001 }, "out-of-range", "pot.white"],
    ["no number", { white: Number.NaN }, "not-finite", "pot.white"],
    ["text", { white: "12" }, "wrong-type", "pot.white"],
    ["a key without amount", { white: undefined }, "missing", "pot.white"],
  ])("refuses %s", (_, value, code, path) => {
    expect(refusal(() => checkGrams(value, "pot", toners))).toEqual({ code, path });
  });
});

describe("gramsInOrder and gramsById", () => {
  it("are inverses, apart from zeros", () => {
    const grams = { "oxide red": 3, white: 100 };
    expect(gramsInOrder(grams, toners)).toEqual(Float64Array.of(100, 0, 3));
    expect(gramsById(gramsInOrder(grams, toners), toners)).toEqual(grams);
  });

  it("take no amount from a prototype", () => {
    const named = [{ ...toners[0], id: "constructor" }];
    expect(gramsInOrder({}, named)).toEqual(Float64Array.of(0));
  });

  it("keep a toner called __proto__ a toner", () => {
    const named = [{ ...toners[0], id: "__proto__" }];
    const pot = checkGrams(JSON.parse('{"__proto__": 7}'), "pot", named);
    expect(gramsInOrder(pot, named)).toEqual(Float64Array.of(7));
    expect(Object.keys(gramsById([7], named))).toEqual(["__proto__"]);
  });
});
