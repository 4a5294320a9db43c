import Ajv2020 from "ajv/dist/2020.js";
import { describe, expect, it } from "vitest";
import verificationSchema from "../../docs/schemas/verification.json";
import type { Check, CheckGroup, Figure } from "../../src/verification/check.js";
import { publishedChecks } from "../../src/verification/publishedChecks.js";
import { verify } from "../../src/verification/verify.js";

const failures = (groups?: readonly CheckGroup[]) =>
  verify(groups).groups.flatMap(({ title, checks }) =>
    checks.filter(({ passed }) => !passed).map(({ name }) => `${title}: ${name}`),
  );

describe("the published figures", () => {
  const verification = verify();

  it("come out", () => {
    expect(failures()).toEqual([]);
    expect(verification).toMatchObject({ passed: true, failedChecks: 0 });
  });

  it("are counted, once each", () => {
    const { total, byKnown, groups } = verification;
    const kinds = Object.values(byKnown);
    expect(kinds.reduce((sum, { checks }) => sum + checks, 0)).toBe(total.checks);
    expect(kinds.reduce((sum, { figures }) => sum + figures, 0)).toBe(total.figures);
    expect(groups.reduce((sum, { checks }) => sum + checks.length, 0)).toBe(total.checks);
    expect(total.checks).toBeGreaterThan(300);
  });

  it("have names of their own within their source, and sources", () => {
    for (const { source, checks } of verification.groups) {
      expect(source).not.toBe("");
      expect(new Set(checks.map(({ name }) => name)).size).toBe(checks.length);
    }
    const titles = verification.groups.map(({ title }) => title);
    expect(new Set(titles).size).toBe(titles.length);
  });

  it("would be missed: a library off by twice what is allowed fails every check", () => {
    const off = ({ measure, allowed, figures, ...check }: Check): Check => ({
      ...check,
      measure,
      allowed,
      figures: () =>
        figures().map(({ expected, ...figure }) => ({
          ...figure,
          expected,
          got: expected + 2 * allowed * (measure === "relative" ? Math.abs(expected) : 1),
        })),
    });
    const groups = publishedChecks().map((group) => ({ ...group, checks: group.checks.map(off) }));
    const { failedChecks, total } = verify(groups);
    expect(failedChecks).toBe(total.checks);
  });

  it("fit the schema", () => {
    const fits = new Ajv2020({ strict: true }).compile(verificationSchema);
    expect(fits(JSON.parse(JSON.stringify(verification)))).toBe(true);
  });
});

describe("verify", () => {
  const group = (figures: () => readonly Figure[], check: Partial<Check> = {}): readonly CheckGroup[] => [
    {
      title: "t",
      source: "s",
      known: "computed",
      checks: [{ name: "c", measure: "absolute", allowed: 0.5, figures, ...check }],
    },
  ];
  const figure = (expected: number, got: number, name = "f"): Figure => ({ name, expected, got });
  const only = (groups: readonly CheckGroup[]) => verify(groups).groups[0].checks[0];

  it("holds |got − expected| against what is allowed, the bound included", () => {
    expect(only(group(() => [figure(2, 2.5)]))).toMatchObject({ passed: true, deviation: 0.5 });
    expect(only(group(() => [figure(2, 1.25)]))).toMatchObject({ passed: false, deviation: 0.75 });
  });

  it("holds shares of what is expected where the measure is relative", () => {
    const relative = { measure: "relative", allowed: 0.1 } as const;
    expect(only(group(() => [figure(-20, -21)], relative))).toMatchObject({ passed: true, deviation: 0.05 });
    expect(only(group(() => [figure(-20, -25)], relative))).toMatchObject({ passed: false, deviation: 0.25 });
    expect(only(group(() => [figure(0, 0)], relative))).toMatchObject({ passed: true, deviation: 0 });
    expect(only(group(() => [figure(0, 1e-300)], relative))).toMatchObject({
      passed: false,
      deviation: null,
    });
  });

  it("shows the figure that is furthest off", () => {
    const figures = () => [figure(1, 1.1, "a"), figure(1, 0.7, "b"), figure(1, 1.2, "c")];
    expect(only(group(figures))).toMatchObject({ worst: "b", got: 0.7, figures: 3, passed: true });
  });

  it.each<[string, () => readonly Figure[], object]>([
    ["what is not a number", () => [figure(1, 1), figure(1, Number.NaN, "n")], { worst: "n", got: null }],
    ["infinity", () => [figure(1, Number.POSITIVE_INFINITY)], { deviation: null }],
    ["nothing to compare", () => [], { thrown: "nothing to compare" }],
    [
      "what throws",
      () => {
        throw new Error("no such lamp");
      },
      { thrown: "no such lamp", expected: null },
    ],
  ])("takes %s for a failure and goes on", (_, figures, shown) => {
    const verification = verify([...group(figures), ...group(() => [figure(1, 1)])]);
    expect(verification).toMatchObject({ passed: false, failedChecks: 1, total: { checks: 2 } });
    expect(verification.groups[0].checks[0]).toMatchObject({ passed: false, ...shown });
    expect(JSON.parse(JSON.stringify(verification))).toEqual(verification);
  });

  it("has verified nothing where there are no checks", () => {
    expect(verify([]).passed).toBe(false);
  });
});
