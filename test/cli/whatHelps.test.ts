import { describe, expect, it } from "vitest";
import { VERBS } from "../../src/cli/verbs.js";
import { formatOf, USES, whatHelps } from "../../src/cli/whatHelps.js";
import { FORMAT_VERSIONS } from "../../src/formats/header.js";

const textOf = (format: string) => JSON.stringify({ version: 1, format });

describe("what a file of each format is for", () => {
  it("is told of every format", () => {
    expect(Object.keys(USES).sort()).toEqual(Object.keys(FORMAT_VERSIONS).sort());
  });

  it.each(["masstone/job", "masstone/plan", "masstone/samples", "masstone/record"] as const)(
    "names for %s all verbs whose FILE it is, and no other",
    (format) => {
      const [, named] = /^masstone ([a-z, -]+?) takes? it/.exec(USES[format]) ?? [];
      const takers = Object.entries(VERBS).filter(([, { file = "" }]) => file.includes(format));
      expect(named?.split(/, | and /).sort()).toEqual(takers.map(([name]) => name).sort());
    },
  );

  it("names for an answer the verb that gave it", () => {
    for (const [name, { format }] of Object.entries(VERBS)) {
      if (!Object.hasOwn(USES, format)) continue;
      expect(USES[format as keyof typeof USES]).toContain(`an answer of masstone ${name}`);
    }
  });
});

describe("what helps", () => {
  it("tells a file by its format wherever that stands, a record by its first line", () => {
    expect(formatOf(textOf("masstone/plan"))).toBe("masstone/plan");
    expect(formatOf(`${textOf("masstone/record")}\n{"number":0}\n`)).toBe("masstone/record");
    expect(formatOf('{"format":"constructor"}')).toBeUndefined();
    expect(formatOf("name,400 nm")).toBeUndefined();
  });

  it.each([
    ["a plan for a job", "wrong-format", textOf("masstone/plan"), /masstone hold-back takes it/],
    ["a table for a job", "unreadable-json", "name,400 nm\ncard,0.3\n", /record takes them with --card/],
    ["JSON with a slip", "unreadable-json", '{"format":"masstone/job",', /comma/],
    ["a key that is not there", "unknown-key", textOf("masstone/job"), /masstone\/schemas\/job\.json/],
    ["a spoilt record", "damaged-record", "{}", /copy/],
  ] as const)("says of %s what to do next", (_, code, text, help) => {
    expect(whatHelps({ code, reason: "" }, text)).toMatch(help);
  });

  it("adds nothing where the reason says it", () => {
    const job = textOf("masstone/job");
    expect(whatHelps({ code: "percent-not-fraction", reason: "looks like per cent" }, job)).toBe("");
    const missing = (reason: string) => whatHelps({ code: "missing", reason }, job);
    expect(missing("a record is needed here")).toMatch(/schemas\/job\.json/);
    expect(missing('"gat" has no readings, neither here nor in files')).toBe("");
  });
});
