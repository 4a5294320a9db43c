import Ajv from "ajv/dist/2020.js";
import fc from "fast-check";
import { describe, expect, expectTypeOf, it } from "vitest";
import { InputError } from "../../../src/core/InputError.js";
import { extended } from "../../../src/core/shape/extended.js";
import { list, numbers } from "../../../src/core/shape/list.js";
import { map } from "../../../src/core/shape/map.js";
import { nameOr } from "../../../src/core/shape/nameOr.js";
import { number } from "../../../src/core/shape/number.js";
import { keyOf, oneOf } from "../../../src/core/shape/oneOf.js";
import { optional } from "../../../src/core/shape/optional.js";
import { record } from "../../../src/core/shape/record.js";
import { rule } from "../../../src/core/shape/rule.js";
import type { Shape } from "../../../src/core/shape/shape.js";
import { text } from "../../../src/core/shape/text.js";
import { variants } from "../../../src/core/shape/variants.js";
import { numbersWithDefaults } from "../../../src/core/shape/withDefaults.js";
import { schemaOfShape } from "../../schemas/schemaOfShape.js";
import { refusal } from "../../support/refusal.js";

interface Cup {
  readonly name: string;
  /** Empty when absent. */
  readonly grams?: Readonly<Record<string, number>>;
  readonly size?: number;
  readonly curve?: ArrayLike<number>;
}

const CUP = record<Cup & { readonly size: number }, Cup>({
  name: text(),
  grams: optional(map(number({ min: 0 }))),
  size: optional(number({ min: 1, max: 9 }), 3),
  curve: optional(numbers({ min: 0, max: 1 })),
});

const refused = <T>(shape: Shape<T>, value: unknown, path = "cup") => refusal(() => shape.check(value, path));

describe("a record", () => {
  it("comes back with its defaults and without what was left out", () => {
    expect(CUP.check({ name: "a" }, "cup")).toStrictEqual({ name: "a", size: 3 });
    expect(CUP.check({ name: "a", size: undefined, grams: undefined }, "cup")).toStrictEqual({
      name: "a",
      size: 3,
    });
  });

  it.each<[unknown, string, string]>([
    [new Map([["name", "a"]]), "wrong-type", "cup"],
    [new Set(), "wrong-type", "cup"],
    [new Date(), "wrong-type", "cup"],
    [[], "wrong-type", "cup"],
    [new Float64Array(2), "wrong-type", "cup"],
    [Object.create({ name: "a" }), "wrong-type", "cup"],
    [null, "wrong-type", "cup"],
    [undefined, "missing", "cup"],
    [{}, "missing", "cup.name"],
    [{ name: "a", colour: 1 }, "unknown-key", "cup.colour"],
    [{ name: "a", size: null }, "wrong-type", "cup.size"],
    [{ name: "a", size: 10 }, "out-of-range", "cup.size"],
    [{ name: "a", grams: new Map() }, "wrong-type", "cup.grams"],
    [{ name: "a", grams: { "oxide red": -1 } }, "out-of-range", 'cup.grams["oxide red"]'],
    [{ name: "a", curve: [0, 2] }, "out-of-range", "cup.curve[1]"],
    [JSON.parse('{"name": "a", "__proto__": {"size": 2}}'), "unknown-key", "cup.__proto__"],
    [{ name: "a", constructor: 1 }, "unknown-key", "cup.constructor"],
  ])("refuses %o", (value, code, path) => {
    expect(refused(CUP, value)).toEqual({ code, path });
  });

  it("names the nearest known key", () => {
    expect(() => CUP.check({ name: "a", sise: 2 }, "")).toThrow(
      /^sise: .*name, grams, size, curve.*"size"\?/,
    );
  });

  it("keeps notes and looks at none of them", () => {
    const notes = { anything: [1, new Date(0)] };
    expect(CUP.check({ name: "a", notes }, "cup")).toHaveProperty("notes", notes);
  });

  it("may have toners called constructor and __proto__", () => {
    const given = JSON.parse('{"name": "a", "grams": {"constructor": 1, "__proto__": 2, "toString": 3}}');
    const { grams = {} } = CUP.check(given, "cup");
    expect(Object.entries(grams)).toEqual([
      ["constructor", 1],
      ["__proto__", 2],
      ["toString", 3],
    ]);
    expect(Object.hasOwn(grams, "__proto__")).toBe(true);
    expect(refused(CUP, JSON.parse('{"name": "a", "grams": {"__proto__": -2}}'))).toEqual({
      code: "out-of-range",
      path: "cup.grams.__proto__",
    });
  });

  it("hands typed arrays on as they are", () => {
    const curve = Float64Array.of(0, 0.5);
    expect(CUP.check({ name: "a", curve }, "cup").curve).toBe(curve);
  });

  it("of a file may say its format and version, and no other", () => {
    const file = record<Cup>({ ...CUP.fields, size: optional(number()) }, { format: "masstone/cup" });
    expect(file.check({ format: "masstone/cup", version: 1, name: "a" }, "")).toEqual({ name: "a" });
    expect(refused(file, { format: "masstone/job", name: "a" })).toEqual({
      code: "wrong-format",
      path: "cup.format",
    });
    expect(refused(file, { version: 2, name: "a" })).toEqual({ code: "wrong-version", path: "cup.version" });
    expect(refused(CUP, { format: "masstone/cup", name: "a" }).code).toBe("unknown-key");
  });

  it("passes over the keys of others", () => {
    const part = record<Pick<Cup, "name">>({ name: text() }, { others: ["lid"] });
    expect(part.check({ name: "a", lid: 7 }, "")).toEqual({ name: "a" });
  });
});

describe("the types", () => {
  it("follow the interface: readonly, optional keys without undefined, names kept", () => {
    expectTypeOf(CUP.check).returns.toEqualTypeOf<Cup & { readonly size: number }>();
    expectTypeOf<ReturnType<typeof CUP.check>["curve"]>().toEqualTypeOf<ArrayLike<number> | undefined>();
    // @ts-expect-error a key of the interface is missing
    record<Cup>({ name: text(), grams: optional(map(number())), size: optional(number()) });
    // @ts-expect-error the default of size is missing
    record<Cup & { size: number }, Cup>({ ...CUP.fields, size: optional(number()) });
    // @ts-expect-error size is a number
    record<Cup>({ ...CUP.fields, size: optional(text()) });
    // @ts-expect-error the interface lets size be left out
    record<Cup>({ ...CUP.fields, size: number() });
    // @ts-expect-error no such key
    record<Pick<Cup, "name">>({ name: text(), lid: text() });
  });
});

describe("other shapes", () => {
  it("a list may want its entries to differ", () => {
    const cups = list(CUP, { min: 1, max: 2, unique: "name" });
    expect(cups.check([{ name: "a" }, { name: "b" }], "cups")).toHaveLength(2);
    expect(refused(cups, [])).toEqual({ code: "wrong-length", path: "cup" });
    expect(refused(cups, [1, 2, 3])).toEqual({ code: "too-large", path: "cup" });
    expect(refused(cups, [{ name: "a" }, { name: "a" }])).toEqual({ code: "duplicate", path: "cup[1].name" });
  });

  it("a word is one of a few, or a key of a table", () => {
    expect(oneOf(["edge", "blend"]).check("edge", "")).toBe("edge");
    expect(refused(oneOf(["edge", "blend"]), "Edge").code).toBe("unknown-word");
    expect(refused(keyOf({ a: 1 }, "unknown-geometry"), "toString").code).toBe("unknown-geometry");
  });

  it("a number may be 0 or not too small, whole, and below its end", () => {
    const step = number({ min: 0.1, orZero: true, max: 1, belowMax: true });
    expect([0, 0.1, 0.9].map((value) => step.check(value, ""))).toEqual([0, 0.1, 0.9]);
    for (const value of [1e-308, -1, 1]) expect(refused(step, value).code).toBe("out-of-range");
    expect(() => step.check(1e-308, "step")).toThrow(/0, or at least 0\.1/);
    expect(refused(number({ whole: true }), 1.5).code).toBe("wrong-type");
  });

  it("a rule looks at the whole", () => {
    const even = rule(number(), (value, path) => {
      if (value % 2 !== 0) throw new InputError("out-of-range", path, `${value} is odd`);
    });
    expect(even.check(2, "")).toBe(2);
    expect(refused(even, 3)).toEqual({ code: "out-of-range", path: "cup" });
  });

  it("variants are told apart by a word", () => {
    type Entry = { readonly kind: "pour"; readonly grams: number } | { readonly kind: "stir" };
    const entry = variants<Entry, "kind">("kind", { pour: { grams: number() }, stir: {} });
    expect(entry.check({ kind: "pour", grams: 2 }, "")).toEqual({ kind: "pour", grams: 2 });
    expect(refused(entry, { kind: "shake" })).toEqual({ code: "unknown-word", path: "cup.kind" });
    expect(refused(entry, { kind: "constructor" }).code).toBe("unknown-word");
    expect(refused(entry, { kind: "stir", grams: 2 })).toEqual({ code: "unknown-key", path: "cup.grams" });
  });

  it("a record may be like another but for some fields", () => {
    const named = extended<Omit<Cup, "curve"> & { lid: string }, Omit<Cup, "curve"> & { lid: string }, Cup>(
      record<Cup>({ ...CUP.fields, size: optional(number()) }),
      { lid: text() },
    );
    expect(named.check({ name: "a", lid: "b" }, "")).toEqual({ name: "a", lid: "b" });
  });

  it("a file may stand for a value", () => {
    expect(nameOr(CUP).check("cup.json", "")).toBe("cup.json");
    expect(refused(nameOr(CUP), " ")).toEqual({ code: "missing", path: "cup" });
    expect(refused(nameOr(CUP), { nmae: "a" }).path).toBe("cup.nmae");
  });

  it("numbers may all have defaults", () => {
    const low = numbersWithDefaults({ low: 1, high: 2 }, { min: 0, max: 10 }, { low: { min: 0, max: 5 } });
    expect(low.check({ high: 7 }, "")).toEqual({ low: 1, high: 7 });
    expect(refused(low, { low: 6 })).toEqual({ code: "out-of-range", path: "cup.low" });
  });
});

describe("the schema", () => {
  const fits = new Ajv({ strict: true }).compile(schemaOfShape(list(CUP, { max: 3 })));
  const anyCup = fc.record(
    {
      name: fc.oneof(fc.string({ maxLength: 3 }), fc.constant(1)),
      grams: fc.dictionary(fc.string({ maxLength: 3 }), fc.constantFrom(-1, 0, 1, "1")),
      size: fc.constantFrom(0, 1, 9, 9.5, null),
      curve: fc.array(fc.constantFrom(-0.1, 0, 1, 1.1), { maxLength: 3 }),
      other: fc.constant(1),
      notes: fc.jsonValue(),
    },
    { requiredKeys: ["name"] },
  );

  it("takes what the check takes, and nothing else", () => {
    const count = { taken: 0, refused: 0 };
    fc.assert(
      fc.property(fc.array(anyCup, { maxLength: 4 }), (value) => {
        let isTaken = true;
        try {
          list(CUP, { max: 3 }).check(value, "");
        } catch (error) {
          expect(error).toBeInstanceOf(InputError);
          isTaken = false;
        }
        count[isTaken ? "taken" : "refused"]++;
        expect(fits(value)).toBe(isTaken);
      }),
      { numRuns: 2000, seed: 4 },
    );
    expect(count.taken).toBeGreaterThan(50);
    expect(count.refused).toBeGreaterThan(500);
  });
});
