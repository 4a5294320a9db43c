import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { runInProcess } from "./runInProcess.js";

const example = (name: string) =>
  fileURLToPath(new URL(`../../examples/starter-set/${name}`, import.meta.url));
let folder = "";
const there = (name: string) => join(folder, name);

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "masstone-eye-"));
  copyFileSync(example("toners.json"), there("toners.json"));
  const { cards: _, targets, ...job } = JSON.parse(readFileSync(example("by-eye.json"), "utf8"));
  const [{ name, formula }] = targets;
  writeFileSync(there("job.json"), JSON.stringify({ ...job, targets: [{ name, formula }] }));
});
afterEach(() => rmSync(folder, { recursive: true }));

describe("a job by eye, on one record", () => {
  it("runs from the first look to a look under another light, and is never promised", async () => {
    const record = there("van.record");
    await runInProcess("record", record, "--job", there("job.json"));
    const look = ["compare", record, "--light", "D65", "--lighter", "-1", "--redder", "1", "--yellower", "2"];
    const first = await runInProcess(...look, "--json");
    expect({ code: first.code, error: first.error }).toEqual({ code: 0, error: "" });
    const answer = JSON.parse(first.out);
    expect(answer.status).toBe("by-eye");
    const poured = answer.additions.flatMap((one: { toner: string; grams: number }) => [
      "--pour",
      `${one.toner}=${one.grams}`,
    ]);
    expect(poured.length).toBeGreaterThan(0);
    expect((await runInProcess("record", record, ...poured)).out).toMatch(/^Next: stir, spray a card/);
    const none = ["--lighter", "0", "--redder", "0", "--yellower", "0"];
    const second = await runInProcess("compare", record, "--light", "D65", ...none);
    expect(second.out).toMatch(/^By eye, so nothing is promised/);
    const third = JSON.parse((await runInProcess("compare", record, "--light", "A", ...none, "--json")).out);
    const cards = readFileSync(record, "utf8")
      .split("\n")
      .filter((line) => line.includes('"kind":"card"'));
    expect(cards).toHaveLength(2);
    expect(third.expected.withinProbability).toBeGreaterThan(answer.expected.withinProbability);
  });

  it.each([
    [["--lighter", "1"], /--light: say under which light/],
    [["--light", "D65"], /say how the panel differs/],
    [["--light", "D65", "--lighter", "1.5"], /has no grade 1.5/],
    [["--light", "D65", "--lighter", "much"], /\[wrong-type\]/],
    [["--light", "D65", "--redder", "1", "--more-chromatic", "1"], /\[duplicate\]/],
    [["--light", "D65", "--lighter", "1", "--target", "roof"], /the job has no "roof"/],
    [["--light", "shop", "--lighter", "1"], /\[unknown-illuminant\]/],
  ])("refuses %j and notes nothing", async (args, message) => {
    const record = there("van.record");
    await runInProcess("record", record, "--job", there("job.json"));
    const before = readFileSync(record, "utf8");
    const { code, error } = await runInProcess("compare", record, ...args);
    expect(code).not.toBe(0);
    expect(error).toMatch(message);
    expect(readFileSync(record, "utf8")).toBe(before);
  });

  it("says so where there is no such record", async () => {
    const { code, error } = await runInProcess(
      "compare",
      there("none.record"),
      "--light",
      "D65",
      "--lighter",
      "1",
    );
    expect(code).not.toBe(0);
    expect(error).toMatch(/no such record/);
  });

  it("holds no card of the pot before against a panel once another pot is begun", async () => {
    const record = there("van.record");
    await runInProcess("record", record, "--job", there("job.json"));
    const look = ["compare", record, "--light", "D65", "--lighter", "1"];
    expect((await runInProcess(...look)).code).toBe(0);
    await runInProcess("record", record, "--new-pot");
    const { code, error } = await runInProcess(...look);
    expect(code).not.toBe(0);
    expect(error).toMatch(/the pot is empty: no card can be of it/);
  });
});
