import { afterEach, describe, expect, it, vi } from "vitest";
import { strykerPlugins as wording } from "./ignoreWording.mjs";
import { strykerPlugins as sample } from "./sampleStatements.mjs";

const [{ value: ignoreWording }] = wording;
const [{ value: sampleStatements }] = sample;

describe("the wording of a refusal", () => {
  const refusal = (name) => {
    const parts = ["code", "path", "reason"].map((value) => ({ type: "StringLiteral", value }));
    return { type: "NewExpression", callee: { name }, arguments: parts };
  };
  const ignored = (parent) => parent.arguments.map((node) => ignoreWording.shouldIgnore({ node, parent }));

  it("is the third argument of InputError, and of nothing else", () => {
    expect(ignored(refusal("InputError"))).toEqual([undefined, undefined, "wording of a refusal"]);
    expect(ignored(refusal("RangeError"))).toEqual([undefined, undefined, undefined]);
  });
});

describe("the sample of statements", () => {
  afterEach(() => vi.unstubAllEnvs());

  const places = Array.from({ length: 2000 }, (_, i) => ({ start: 37 * i, end: 37 * i + 20 }));
  const taken = (share, node, parent) => {
    vi.stubEnv("MUTATED_SHARE", share);
    return places.filter(
      (place) => sampleStatements.shouldIgnore({ node: { ...node, ...place }, parent }) === undefined,
    );
  };
  const statement = { type: "ReturnStatement" };

  it("is all, none, or about the share that is asked for, and the same twice", () => {
    expect(taken("1", statement)).toEqual(places);
    expect(taken("0", statement)).toEqual([]);
    const fifth = taken("0.2", statement);
    expect(fifth).toEqual(taken("0.2", statement));
    // Two thousand draws at one fifth: 400 ± 18.
    expect(Math.abs(fifth.length - 400)).toBeLessThan(4 * 18);
  });

  it("counts conditions and the steps of loops as statements", () => {
    for (const place of ["test", "update"]) {
      const node = { type: "BinaryExpression" };
      const { shouldIgnore } = sampleStatements;
      vi.stubEnv("MUTATED_SHARE", "0");
      expect(shouldIgnore({ node, parent: { type: "ForStatement", [place]: node } })).toBe(
        "not in the sample",
      );
      expect(shouldIgnore({ node, parent: { type: "ForStatement", body: node } })).toBeUndefined();
    }
  });

  it("lets through what is neither a statement nor a condition: it stands or falls with what it is in", () => {
    expect(taken("0", { type: "BinaryExpression" }, { type: "ReturnStatement" })).toEqual(places);
  });
});
