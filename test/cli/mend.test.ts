import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { mendCommand } from "../../src/cli/mendCommand.js";
import type { DatedEntry, RecordEntry } from "../../src/record/recordEntry.js";
import { pasted } from "./pasted.js";
import { runInProcess } from "./runInProcess.js";

const example = (name: string) => fileURLToPath(new URL(`../../examples/horsebox/${name}`, import.meta.url));
let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "masstone-mend-"));
  copyFileSync(example("toners.json"), join(folder, "toners.json"));
});
afterEach(() => rmSync(folder, { recursive: true }));

const told = async (...args: readonly string[]) => {
  const { code, out, error } = await runInProcess(...args);
  expect({ args, code, error }).toEqual({ args, code: 0, error: "" });
  return out;
};

const numbered = (entries: readonly RecordEntry[]): readonly DatedEntry[] =>
  entries.map((entry, number) => ({ number, at: "", entry }));

describe("a pour that was noted wrongly", () => {
  it("is set right by the line that next prints: from then on all is as if it had been noted so", async () => {
    const job = JSON.parse(readFileSync(example("job.json"), "utf8"));
    const { green } = job.pot;
    writeFileSync(join(folder, "right.json"), JSON.stringify(job));
    writeFileSync(
      join(folder, "wrong.json"),
      JSON.stringify({ ...job, pot: { ...job.pot, green: 10 * green } }),
    );
    const [right, wrong] = ["right.record", "wrong.record"].map((name) => join(folder, name));
    const wanted = JSON.parse(await told("next", right, "--job", join(folder, "right.json"), "--json"));
    const said = await told("next", wrong, "--job", join(folder, "wrong.json"));
    expect(said.trimEnd().split("\n").length).toBeLessThanOrEqual(25);
    const [, line = ""] = /If 1 is so:\n((?:.*\\\n)*.*)\nOtherwise:/.exec(said) ?? [];
    const args = pasted(line);
    expect(args.slice(0, 2)).toEqual(["record", wrong]);
    expect(args).toContain(`green=${green}g`);
    expect(await told(...args)).toContain(`was really ${green.toFixed(1)} g Bluish green`);
    const mended = JSON.parse(await told("next", wrong, "--json"));
    expect(mended.correction.additions).toEqual(wanted.correction.additions);
    expect(mended.next).toEqual(wanted.next);
  }, 60_000);

  it.each([
    ["not-poured", { kind: "not-poured", toner: "green", grams: -9 }, ["--withdraw", "2"]],
    [
      "wrong-toner",
      { kind: "wrong-toner", toner: "green", poured: "ochre", grams: 9 },
      ["--withdraw", "2", "--pour", "ochre=9g"],
    ],
    ["swapped-card", { kind: "swapped-card", card: "card 1" }, ["--withdraw", "3"]],
    ["spike", { kind: "spike", geometry: "d:8 specular excluded", wavelength: 550 }, []],
    ["poured in two goes", { kind: "not-poured", toner: "white", grams: -9 }, []],
  ] as const)("of the kind %s", (_, fault, words) => {
    const entries = numbered([
      { kind: "job", job: {} },
      { kind: "pour", toner: "white", grams: 4 },
      { kind: "pour", toner: "green", grams: 9 },
      { kind: "card", name: "card 1", readings: [] },
      { kind: "pour", toner: "white", grams: 5 },
    ]);
    const ordered = numbered([...entries.slice(0, 3), entries[4], entries[3]].map(({ entry }) => entry));
    const told = fault.kind === "not-poured" && fault.toner === "white" ? ordered : entries;
    const card = { verdict: "doubted", explanations: [{ fault, probability: 1 }] } as never;
    const line = mendCommand({ status: "undetermined", card }, told, {
      record: "a.record",
      unit: "g",
      program: "masstone",
    });
    expect(pasted(line).slice(2)).toEqual(words);
  });

  it("leaves a sheet where something was worked out, and says so where nothing was", async () => {
    writeFileSync(join(folder, "job.json"), readFileSync(example("job.json")));
    const record = join(folder, "job.record");
    const sheet = join(folder, "sheet.html");
    await told("next", record, "--job", join(folder, "job.json"), "--report", sheet);
    expect(readFileSync(sheet, "utf8")).toMatch(/<h2>Pour<\/h2>[\s\S]*class="tick"/);
    expect(readFileSync(sheet, "utf8")).toContain("<dd>2026-03-31</dd>");
    const { code, error } = await runInProcess("next", record, "--report", join(folder, "other.html"));
    expect({ code, error }).toEqual({
      code: 4,
      error: expect.stringMatching(/nothing had to be worked out.*\[missing\]/),
    });
  }, 60_000);

  it("is refused in the place of what is no pour", async () => {
    writeFileSync(join(folder, "job.json"), readFileSync(example("job.json")));
    const record = join(folder, "job.record");
    await told("record", record, "--job", join(folder, "job.json"));
    const { entries } = JSON.parse(await told("record", record, "--json"));
    const args = ["--withdraw", String(entries - 1), "--pour", "white=1"];
    expect((await runInProcess("record", record, ...args)).error).toMatch(/is no pour.*\[out-of-range\]/);
  });
});
