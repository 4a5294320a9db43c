import { describe, expect, it } from "vitest";
import { tonerIndex } from "../../src/toners/tonerIndex.js";
import { surfaceAt, TONER_SET } from "../../src/toners/tonerSet.js";
import { refusal } from "../support/refusal.js";
import { smallSet } from "./smallSet.js";

/** The set as plain data, to be spoilt: `spoilt` changes it in place. */
function spoilt(
  change: (set: Record<string, unknown> & { toners: Record<string, unknown>[] }) => void,
): unknown {
  const set = structuredClone(smallSet()) as unknown as Parameters<typeof change>[0];
  change(set);
  return set;
}

const GEOMETRY = "d:8 specular included";

describe("TONER_SET", () => {
  it("passes a set through, unchanged", () => {
    expect(TONER_SET.check(smallSet(), "toners")).toEqual(smallSet());
    expect(TONER_SET.check(JSON.parse(JSON.stringify(smallSet())), "")).toEqual(smallSet());
  });

  it("loses nothing that is said of a toner", () => {
    const extra = spoilt((set) => {
      set.toners[0].density = 1.3;
    });
    const { toners, ...rest } = smallSet();
    const [first, ...others] = toners;
    expect(TONER_SET.check(extra, "set")).toEqual({
      ...rest,
      toners: [{ ...first, density: 1.3 }, ...others],
    });
  });

  it("takes typed arrays for spectra", () => {
    const typed = spoilt((set) => {
      set.toners[0].k = { [GEOMETRY]: Float64Array.of(1, 2, 3, 4), "45:0": Float32Array.of(1, 2, 3, 4) };
    });
    expect(TONER_SET.check(typed, "set").toners[0].k[GEOMETRY]).toEqual(Float64Array.of(1, 2, 3, 4));
  });

  const spectra = (values: unknown) => ({ [GEOMETRY]: values, "45:0": [1, 1, 1, 1] });

  it.each<[string, Parameters<typeof spoilt>[0], string, string]>([
    ["no grid", (set) => delete set.grid, "missing", "set.grid"],
    ["no surfaces", (set) => delete set.surfaces, "missing", "set.surfaces"],
    ["an empty list of surfaces", (set) => (set.surfaces = []), "wrong-length", "set.surfaces"],
    ["no toners", (set) => (set.toners = []), "wrong-length", "set.toners"],
    ["toners by id", (set) => (set.toners = {} as never), "wrong-type", "set.toners"],
    [
      "more toners than there can be",
      (set) => (set.toners = Array.from({ length: 501 }, () => set.toners[0])),
      "too-large",
      "set.toners",
    ],
    [
      "a geometry twice",
      (set) => (set.surfaces = [smallSet().surfaces[0], smallSet().surfaces[0]]),
      "duplicate",
      "set.surfaces[1].geometry",
    ],
    ["an id twice", (set) => (set.toners[2].id = "white"), "duplicate", "set.toners[2].id"],
    ["no id", (set) => delete set.toners[1].id, "missing", "set.toners[1].id"],
    ["an empty id", (set) => (set.toners[1].id = " "), "missing", "set.toners[1].id"],
    ["an unknown role", (set) => (set.toners[1].role = "blue"), "unknown-word", "set.toners[1].role"],
    ["an empty name", (set) => (set.toners[1].name = ""), "missing", "set.toners[1].name"],
    ["a strength of 0", (set) => (set.toners[1].strength = 0), "out-of-range", "set.toners[1].strength"],
    [
      "a strength in words",
      (set) => (set.toners[1].strength = "full"),
      "wrong-type",
      "set.toners[1].strength",
    ],
    ["a negative sd", (set) => (set.toners[1].strengthSd = -0.1), "out-of-range", "set.toners[1].strengthSd"],
    ["no k", (set) => delete set.toners[1].k, "missing", "set.toners[1].k"],
    ["k as a bare list", (set) => (set.toners[1].k = [1, 2, 3, 4]), "wrong-type", "set.toners[1].k"],
    [
      "k missing at a geometry",
      (set) => (set.toners[1].k = { [GEOMETRY]: [1, 1, 1, 1] }),
      "missing",
      "set.toners[1].k.45:0",
    ],
    [
      "s at a geometry without surface",
      (set) => (set.toners[1].s = { ...spectra([1, 1, 1, 1]), "45as15": [1, 1, 1, 1] }),
      "unknown-geometry",
      "set.toners[1].s.45as15",
    ],
    [
      "s at what is no geometry",
      (set) => (set.toners[1].s = JSON.parse('{"__proto__": [1, 1, 1, 1]}')),
      "unknown-geometry",
      "set.toners[1].s.__proto__",
    ],
    [
      "too few bands",
      (set) => (set.toners[1].k = spectra([1, 1, 1])),
      "wrong-length",
      `set.toners[1].k["${GEOMETRY}"]`,
    ],
    [
      "a negative k",
      (set) => (set.toners[1].k = spectra([1, -1e-9, 1, 1])),
      "out-of-range",
      `set.toners[1].k["${GEOMETRY}"][1]`,
    ],
    [
      "an s not a number",
      (set) => (set.toners[1].s = spectra([1, 1, 1, Number.NaN])),
      "not-finite",
      `set.toners[1].s["${GEOMETRY}"][3]`,
    ],
    [
      "an s beyond any paint",
      (set) => (set.toners[1].s = spectra([1, 1, 2e6, 1])),
      "out-of-range",
      `set.toners[1].s["${GEOMETRY}"][2]`,
    ],
  ])("refuses %s", (_, change, code, path) => {
    const expected = { code, path: path.replace(".k.45:0", '.k["45:0"]') };
    expect(refusal(() => TONER_SET.check(spoilt(change), "set"))).toEqual(expected);
  });
});

describe("tonerIndex and surfaceAt", () => {
  it("find by id and by geometry", () => {
    const set = smallSet();
    expect(tonerIndex(set.toners, "oxide red", "p")).toBe(2);
    expect(surfaceAt(set, "45:0", "p")).toBe(set.surfaces[1]);
  });

  it("refuse what is not there", () => {
    const set = smallSet();
    expect(refusal(() => tonerIndex(set.toners, "blue", "pot.blue"))).toEqual({
      code: "unknown-toner",
      path: "pot.blue",
    });
    expect(refusal(() => surfaceAt(set, "45as15", "card"))).toEqual({
      code: "unknown-geometry",
      path: "card",
    });
  });
});
