import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { writeReadingsCsv } from "../../src/formats/readingsCsv.js";
import { pasted } from "./pasted.js";
import { runInProcess } from "./runInProcess.js";

const example = (name: string) => fileURLToPath(new URL(`../../examples/horsebox/${name}`, import.meta.url));
let folder = "";
const there = (name: string) => join(folder, name);

/** The example's plan with its readings in a CSV of the instrument. */
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "masstone-planned-"));
  copyFileSync(example("toners.json"), there("toners.json"));
  const plan = JSON.parse(readFileSync(example("plan.json"), "utf8"));
  const read = plan.panels.flatMap(({ name, readings }: { name: string; readings: object[] }) =>
    readings.map((reading) => ({ name, reading })),
  );
  writeFileSync(there("panels.csv"), writeReadingsCsv(read));
  const panels = plan.panels.map(({ readings: _, ...panel }: { readings: object[] }) => panel);
  writeFileSync(there("csv.json"), JSON.stringify({ ...plan, panels, files: [{ name: "panels.csv" }] }));
  writeFileSync(there("plan.json"), JSON.stringify(plan));
});
afterEach(() => rmSync(folder, { recursive: true }));

const told = async (...args: readonly string[]) => {
  const { code, out, error } = await runInProcess(...args);
  expect({ args, code, error }).toEqual({ args, code: 0, error: "" });
  return out;
};

describe("a plan", () => {
  it("takes the readings of its panels from a CSV, and so does the record that it begins", async () => {
    const [own, csv] = await Promise.all(
      ["plan.json", "csv.json"].map(async (name) =>
        JSON.parse(await told("hold-back", there(name), "--json")),
      ),
    );
    expect(csv.pots).toEqual(own.pots);
    const next = JSON.parse(await told("next", there("a.record"), "--plan", there("csv.json"), "--json"));
    expect(next.plan.pots).toEqual(own.pots);
    expect(readFileSync(there("a.record"), "utf8")).not.toContain("panels.csv");
  }, 60_000);

  it("is compared by eye on its record: the panel that is painted next beside a card of the pot", async () => {
    const record = there("a.record");
    const words = pasted(await told("next", record, "--plan", there("plan.json")));
    await told(...words.slice(0, words.indexOf("--card")));
    const panel = "roof";
    const look = ["compare", record, "--light", "D65", "--lighter", "-1", "--redder", "0", "--yellower", "1"];
    expect((await runInProcess(...look, "--target", "near-side door")).error).toMatch(/\[usage\]/);
    const said = await told(...look, "--target", panel);
    expect(said).toMatch(/roof/);
    expect(["record", "compare"]).toContain(pasted(said)[0]);
    expect(JSON.parse(await told("record", record, "--json")).cards).toHaveLength(1);
  }, 60_000);

  it("of several pots begins the next one when the panels of the one before are painted", async () => {
    const record = there("a.record");
    const plan = JSON.parse(readFileSync(there("plan.json"), "utf8"));
    writeFileSync(there("stiff.json"), JSON.stringify({ ...plan, options: { mostGrowth: 1 } }));
    const first = await told("next", record, "--plan", there("stiff.json"));
    const planned = JSON.parse(await told("hold-back", there("stiff.json"), "--json"));
    expect(planned.pots.length).toBeGreaterThan(1);
    const words = pasted(first);
    await told(...words.slice(0, words.indexOf("--card")));
    for (const panel of planned.pots[0].panels) await told("record", record, "--sprayed", `${panel}=1`);
    const another = pasted(await told("next", record));
    expect(another.slice(0, 3)).toEqual(["record", record, "--new-pot"]);
    await told(...another.slice(0, another.indexOf("--card")));
    const { pot } = JSON.parse(await told("record", record, "--json"));
    for (const { toner, grams } of planned.pots[1].pourNow) expect(pot[toner] ?? 0).toBeCloseTo(grams, 3);
  }, 60_000);
});
