import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  checkInteger,
  checkList,
  checkNumber,
  checkNumbers,
  checkOneOf,
  checkRecord,
  checkText,
  pathTo,
  SIZE_LIMIT,
} from "../../src/core/check.js";
import { InputError } from "../../src/core/InputError.js";
import { refusal } from "../support/refusal.js";

const code = (act: () => unknown) => {
  const { code, path } = refusal(act);
  expect(path).toBe("p");
  return code;
};

describe("checkNumber", () => {
  it("returns what is inside its range, ends included", () => {
    expect(checkNumber(0, "p", { min: 0, max: 1 })).toBe(0);
    expect(checkNumber(1, "p", { min: 0, max: 1 })).toBe(1);
    expect(checkNumber(-1e300, "p")).toBe(-1e300);
    expect(checkNumber(Number.MIN_VALUE, "p", { min: 0, aboveMin: true })).toBe(Number.MIN_VALUE);
  });

  it.each([
    [undefined, "missing"],
    [null, "wrong-type"],
    ["1", "wrong-type"],
    [1n, "wrong-type"],
    [true, "wrong-type"],
    [[1], "wrong-type"],
    [{ valueOf: () => 1 }, "wrong-type"],
    [new Number(1), "wrong-type"],
    [Number.NaN, "not-finite"],
    [Number.POSITIVE_INFINITY, "not-finite"],
    [Number.NEGATIVE_INFINITY, "not-finite"],
    [-1e-9, "out-of-range"],
    [1 + 1e-9, "out-of-range"],
  ])("%o → %s", (value, expected) => {
    expect(code(() => checkNumber(value, "p", { min: 0, max: 1 }))).toBe(expected);
  });

  it("refuses the lower end itself where that is asked for", () => {
    expect(code(() => checkNumber(0, "p", { min: 0, aboveMin: true }))).toBe("out-of-range");
    expect(code(() => checkNumber(-0, "p", { min: 0, aboveMin: true }))).toBe("out-of-range");
  });
});

describe("checkInteger", () => {
  it("takes whole numbers only", () => {
    expect(checkInteger(31, "p", { min: 1 })).toBe(31);
    expect(code(() => checkInteger(31.5, "p"))).toBe("wrong-type");
    expect(code(() => checkInteger(0, "p", { min: 1 }))).toBe("out-of-range");
    expect(code(() => checkInteger(Number.POSITIVE_INFINITY, "p"))).toBe("not-finite");
  });
});

describe("checkText and checkOneOf", () => {
  it("take text as it stands", () => {
    expect(checkText(" oxide red ", "p")).toBe(" oxide red ");
    expect(checkOneOf("edge", "p", ["edge", "blend"])).toBe("edge");
  });

  it.each([
    [undefined, "missing"],
    ["", "missing"],
    [" \t\n", "missing"],
    [5, "wrong-type"],
    [null, "wrong-type"],
    ["x".repeat(SIZE_LIMIT + 1), "too-large"],
  ])("refuse %o: %s", (value, expected) => {
    expect(code(() => checkText(value, "p"))).toBe(expected);
  });

  it.each(["Edge", "edge ", "toString", "__proto__"])("refuse %o", (word) => {
    expect(code(() => checkOneOf(word, "p", ["edge", "blend"]))).toBe("unknown-word");
  });
});

describe("checkList", () => {
  it("takes arrays and typed arrays, empty or not", () => {
    for (const list of [[], [1, "two"], new Float64Array(3), new Uint8Array(3)]) {
      expect(checkList(list, "p")).toBe(list);
    }
    expect(checkList(new Float32Array(SIZE_LIMIT), "p")).toHaveLength(SIZE_LIMIT);
  });

  it.each([
    [undefined, "missing"],
    [null, "wrong-type"],
    ["abc", "wrong-type"],
    [{ length: 2, 0: 1, 1: 2 }, "wrong-type"],
    [new Set([1, 2]), "wrong-type"],
    [new DataView(new ArrayBuffer(8)), "wrong-type"],
    [new ArrayBuffer(8), "wrong-type"],
    [[1], "wrong-length"],
    [[1, 2, 3, 4], "too-large"],
  ])("%o → %s", (value, expected) => {
    expect(code(() => checkList(value, "p", { min: 2, max: 3 }))).toBe(expected);
  });

  it("refuses a huge list by its length, without walking it", () => {
    const huge: unknown[] = [];
    huge.length = 2 ** 32 - 1;
    expect(code(() => checkList(huge, "p"))).toBe("too-large");
    expect(code(() => checkNumbers(huge, "p", 31))).toBe("too-large");
  });
});

describe("checkNumbers", () => {
  it("returns the very list, so that nothing is copied", () => {
    const list = Float64Array.of(0, 0.5, 1);
    expect(checkNumbers(list, "p", 3, { min: 0, max: 1 })).toBe(list);
  });

  it("names the entry that it refuses", () => {
    const at = (list: unknown) => refusal(() => checkNumbers(list, "p", 3, { min: 0, max: 1 }));
    expect(at([0, 0.5])).toEqual({ code: "wrong-length", path: "p" });
    expect(at(new Float64Array(4))).toEqual({ code: "wrong-length", path: "p" });
    expect(at([0, 2, 1])).toEqual({ code: "out-of-range", path: "p[1]" });
    expect(at([0, 0.5, "1"])).toEqual({ code: "wrong-type", path: "p[2]" });
    expect(at(Float64Array.of(Number.NaN, 0, 0))).toEqual({ code: "not-finite", path: "p[0]" });
    expect(at(BigInt64Array.of(0n, 0n, 0n))).toEqual({ code: "wrong-type", path: "p[0]" });
    expect(at(Object.assign(new Array(3), { 0: 0, 2: 0 }))).toEqual({ code: "missing", path: "p[1]" });
  });
});

describe("checkRecord", () => {
  it("copies a record to one without a prototype", () => {
    const record = checkRecord({ a: 1 }, "p");
    expect(Object.getPrototypeOf(record)).toBeNull();
    expect(record.a).toBe(1);
    expect(record.toString).toBeUndefined();
    expect(record.constructor).toBeUndefined();
  });

  it("keeps a key called __proto__ as a key, and touches no prototype", () => {
    const record = checkRecord(JSON.parse('{"__proto__": {"k1": 0.04}, "constructor": 7}'), "p");
    expect(Object.keys(record)).toEqual(["__proto__", "constructor"]);
    expect(Object.getPrototypeOf(record)).toBeNull();
    expect(record.k1).toBeUndefined();
    expect(({} as Record<string, unknown>).k1).toBeUndefined();
  });

  it("reads nothing from a prototype", () => {
    expect(code(() => checkRecord(Object.create({ k1: 0.04 }), "p"))).toBe("wrong-type");
    expect(checkRecord(Object.create(null), "p")).toEqual(Object.create(null));
  });

  it.each([
    [undefined, "missing"],
    [null, "wrong-type"],
    ["text", "wrong-type"],
    [[], "wrong-type"],
    [new Float64Array(2), "wrong-type"],
    [() => 1, "wrong-type"],
    [new Map([["white", 10]]), "wrong-type"],
    [new Set(["white"]), "wrong-type"],
    [new Date(0), "wrong-type"],
    [Object.fromEntries(Array.from({ length: SIZE_LIMIT + 1 }, (_, i) => [i, i])), "too-large"],
  ])("%o → %s", (value, expected) => {
    expect(code(() => checkRecord(value, "p"))).toBe(expected);
  });

  it("says what it was given in words that fit", () => {
    const message = (value: unknown) => {
      try {
        checkRecord(value, "pot");
      } catch (error) {
        return (error as Error).message;
      }
      throw new Error("nothing was refused");
    };
    expect(message(new Map())).toBe("pot: a record is needed here, not an instance of a class [wrong-type]");
    expect(message([])).toBe("pot: a record is needed here, not a list [wrong-type]");
    expect(message(null)).toBe("pot: a record is needed here, not null [wrong-type]");
  });
});

describe("pathTo", () => {
  it.each([
    ["pot", "white", "pot.white"],
    ["", "white", "white"],
    ["pot", "oxide red", 'pot["oxide red"]'],
    ["pot", "a.b", 'pot["a.b"]'],
    ["pot", 'say "x"', 'pot["say \\"x\\""]'],
    ["pot", "", 'pot[""]'],
    ["pot", "line\n", 'pot["line\\n"]'],
    ["targets[0]", "45as-15", "targets[0].45as-15"],
  ])("%o, %o → %s", (parent, key, path) => {
    expect(pathTo(parent, key)).toBe(path);
  });
});

it("whatever is passed to whatever check, the only thing thrown is an InputError", () => {
  const checks = [checkNumber, checkInteger, checkText, checkList, checkRecord];
  fc.assert(
    fc.property(fc.anything({ withTypedArray: true, withSparseArray: true, withBigInt: true }), (value) => {
      for (const check of checks) {
        try {
          check(value, "p");
        } catch (error) {
          expect(error).toBeInstanceOf(InputError);
        }
      }
    }),
    { numRuns: 1000 },
  );
});
