import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { writeReadingsCsv } from "../../src/formats/readingsCsv.js";
import { writeToners } from "../../src/formats/tonersFile.js";
import type { Reading } from "../../src/surface/reading.js";
import { deltaE00, VIEWING } from "../loop/trueColour.js";
import { createWorld, knownToners, type SimulatedPot } from "../simulator/world.js";
import { pasted } from "./pasted.js";
import { runInProcess } from "./runInProcess.js";

const folder = mkdtempSync(join(tmpdir(), "masstone-next-"));
afterAll(() => rmSync(folder, { recursive: true }));
const toners = knownToners();
writeFileSync(join(folder, "toners.json"), writeToners(toners));

const told = async (...args: readonly string[]) => {
  const { code, out, error } = await runInProcess(...args);
  expect({ args, code, error }).toEqual({ args, code: 0, error: "" });
  return out;
};

const GRAMS_PER_OUNCE = 28.349523125;
const EDGES = [0.25, 0.15, 0.08];

/** A job of three panels and a hand that errs, by what `next` says and nothing else. */
async function work(seed: number) {
  const world = createWorld(seed, toners, { strengthSd: 0.15 });
  const formula = world.formula("mid", 400);
  const panels = EDGES.map((fade, i) => ({ name: `panel ${i + 1}`, ...world.panel(formula, fade) }));
  const record = join(folder, `${seed}.record`);
  const plan = {
    format: "masstone/plan",
    version: 1,
    toners: "toners.json",
    viewing: VIEWING,
    formulas: [{ name: "the formula", grams: formula }],
    panels: panels.map(({ name, reading }) => ({
      name,
      readings: [{ ...reading, reflectance: Array.from(reading.reflectance) }],
    })),
    wantedGrams: 600,
    limits: { potMaxGrams: 900 },
  };
  writeFileSync(join(folder, "plan.json"), JSON.stringify(plan));
  await told("record", record, "--plan", join(folder, "plan.json"), "--unit", "oz");

  let pot: SimulatedPot = { shown: {}, poured: {} };
  const painted: Record<string, { readonly off: number; readonly isBlended: boolean }> = {};
  let isBlended = false;
  let cards = 0;
  let isMisPoured = false;
  let isMisread = false;
  const card = (reading: Reading) => {
    writeFileSync(join(folder, "card.csv"), writeReadingsCsv([{ name: `card ${++cards}`, reading }]));
    return join(folder, "card.csv");
  };
  for (let round = 0; round < 25; round++) {
    const said = await told("next", record);
    if (/^Paint/m.test(said)) isBlended = /^Paint and blend every edge/m.test(said);
    const lines = said.trimEnd().split("\n");
    expect(lines.length, said).toBeLessThanOrEqual(25);
    for (const line of lines) expect([...line].length, line).toBeLessThanOrEqual(80);
    expect(said).not.toMatch(/\d g\b|drops/);
    const command = pasted(said);
    if (command.length === 0) break;
    expect(command[1]).toBe(record);
    const args: string[] = [];
    for (let i = 2; i < command.length; i += command[i] === "--new-pot" ? 1 : 2) {
      const [option, value] = [command[i], command[i + 1] ?? ""];
      const at = value.lastIndexOf("=");
      const [name, amount] = [value.slice(0, at), Number.parseFloat(value.slice(at + 1))];
      if (option === "--pour") {
        const grams = amount * GRAMS_PER_OUNCE;
        // Once the hand slips: half as much again of one toner, seen on the scale and noted as it was.
        const slip: number = round > 0 && !isMisPoured && grams > 3 ? 1.5 : 1;
        isMisPoured ||= slip > 1;
        const before = pot.shown[name] ?? 0;
        pot = world.pour({ [name]: grams * slip }, pot);
        const shown = (pot.shown[name] - before) / GRAMS_PER_OUNCE;
        if (shown > 0) args.push(option, `${name}=${shown.toFixed(4)}`);
      } else if (option === "--card") {
        // Once the instrument is not calibrated.
        const reading = world.card(pot);
        const isBad: boolean = cards === 1 && !isMisread;
        isMisread ||= isBad;
        const read = isBad
          ? { ...reading, reflectance: Array.from(reading.reflectance, (value) => value + 0.12) }
          : reading;
        args.push(option, card(read));
      } else if (option === "--sprayed") {
        const panel = panels.find((one) => one.name === name);
        const off = deltaE00(panel?.reflectance ?? [], world.truth(pot.poured));
        painted[name] = { off, isBlended };
        const total = Object.values(pot.shown).reduce((sum, one) => sum + one, 0);
        const left = 1 - (amount * GRAMS_PER_OUNCE) / total;
        const scaled = (grams: Readonly<Record<string, number>>) =>
          Object.fromEntries(Object.entries(grams).map(([id, one]) => [id, one * left]));
        pot = { shown: scaled(pot.shown), poured: scaled(pot.poured) };
        args.push(option, value);
      } else if (option === "--new-pot") {
        pot = { shown: {}, poured: {} };
        args.push(option);
      } else args.push(option, value);
    }
    await told("record", record, ...args);
  }
  return { painted, cards, isMisPoured, isMisread, record };
}

describe("a whole job by record and next alone", () => {
  const edges: { readonly off: number; readonly isBlended: boolean }[] = [];

  it.each([1, 2, 3, 4])(
    "seed %d: plan, three panels, a slip, a bad reading, ounces",
    async (seed) => {
      const { painted, cards, isMisPoured, isMisread, record } = await work(seed);
      expect({ isMisPoured, isMisread }).toEqual({ isMisPoured: true, isMisread: true });
      expect(Object.keys(painted).sort()).toEqual(["panel 1", "panel 2", "panel 3"]);
      expect(cards).toBeLessThanOrEqual(12);
      edges.push(...Object.values(painted));
      expect(JSON.parse(await told("next", record, "--json"))).toMatchObject({
        format: "masstone/next",
        next: { kind: "done" },
      });
    },
    120_000,
  );

  // True differences. Of seeds 1 to 12 no edge that was called good enough was more than 0.28 off; what is more than 0.5
  // off (9 of 36) was to be blended out, because another card was not expected to gain what it costs.
  it("edges called good enough are within 0.5 ΔE00 of the truth, those to be blended out within 0.9", () => {
    expect(edges).toHaveLength(12);
    const off = (blended: boolean) => edges.filter((one) => one.isBlended === blended).map((one) => one.off);
    expect(off(false).length).toBeGreaterThanOrEqual(3);
    expect(Math.max(...off(false))).toBeLessThanOrEqual(0.5);
    expect(Math.max(0, ...off(true))).toBeLessThanOrEqual(0.9);
  });
});

describe("masstone next", () => {
  it("refuses a record that is not there, and writes nothing", async () => {
    const { code, error } = await runInProcess("next", join(folder, "nowhere.record"));
    expect({ code, error }).toEqual({
      code: 2,
      error: expect.stringMatching(/nowhere\.record: there is no such record.*\[missing\]/),
    });
    expect((await runInProcess("record", join(folder, "nowhere.record"))).error).toMatch(
      /nowhere\.record: there is no such record.*\[missing\]/,
    );
  });

  it("keeps to the unit of its record: what is typed without one is of it, and another is refused", async () => {
    const record = join(folder, "ounces.record");
    const plan = join(folder, "plan.json");
    expect(await told("record", record, "--plan", plan, "--unit", "oz", "--pour", "white=2")).toContain(
      "2.000 oz white",
    );
    const { pot } = JSON.parse(await told("record", record, "--pour", "white=10g", "--json"));
    expect(pot.white).toBeCloseTo(2 * GRAMS_PER_OUNCE + 10, 3);
    expect((await runInProcess("record", record, "--unit", "g")).error).toMatch(/kept in oz.*\[usage\]/);
    expect((await runInProcess("record", record, "--sprayed", "bonnet=1")).error).toMatch(
      /no panel.*\[unknown-word\]/,
    );
  });
});
