import { describe, expect, it } from "vitest";
import { planHoldBack } from "../../src/planning/holdBack/planHoldBack.js";
import { holdBackDetails } from "../../src/report/planning/holdBackDetails.js";
import { holdBackText } from "../../src/report/planning/holdBackText.js";
import { massText } from "../../src/report/words/massText.js";
import { tonerNames } from "../../src/report/words/tonerName.js";
import { horseboxPlan } from "../planning/horseboxPlan.js";

const job = horseboxPlan();
const plan = planHoldBack(job);

const flat = (text: string) => text.replace(/\s+/g, " ");

describe("holdBackText", () => {
  it("gives the headline first, every toner's grams to pour and to keep back, and the caution last", () => {
    const text = holdBackText(plan, tonerNames(job.toners));
    expect(flat(text)).toMatch(/^Planned from "sage green, first years": one pot serves the panels in turn/);
    const [{ pourNow }] = plan.pots;
    for (const { toner, grams, keptBackGrams } of pourNow) {
      const name = tonerNames(job.toners)[toner];
      const row = text.split("\n").find((line) => line.includes(`  ${name} `));
      expect(row).toContain(` ${grams.toFixed(1)}`);
      expect(row).toContain(` ${keptBackGrams.toFixed(1)}`);
    }
    expect(text.trimEnd().split("\n\n").at(-1)).toMatch(/isocyanates.*breathing.*safety data sheet/is);
    const worst = plan.panels
      .flatMap(({ panel, remaining }) => remaining.map((one) => ({ panel, ...one })))
      .reduce((one, other) => (other.fraction < one.fraction ? other : one));
    expect(flat(text)).toContain(
      `The sun took most from ${tonerNames(job.toners)[worst.toner]}: ${(100 * worst.fraction).toFixed(0)} % of it is left on ${worst.panel}.`,
    );
  });

  it("shows ounces where asked, and keeps the same amounts", () => {
    const text = holdBackText(plan, {}, { unit: "oz" });
    expect(text).toContain(`${(job.wantedGrams / 28.349523125).toFixed(3)} oz`);
    expect(text).not.toMatch(/\d g\b/);
  });

  it("has the rest in the details, in drops of what is calibrated, grams of the others, and says which", () => {
    const [first, ...others] = plan.pots[0].pourNow;
    const names = tonerNames(job.toners);
    const display = { unit: "drops", gramsPerDrop: { [first.toner]: 0.02 } } as const;
    const text = holdBackDetails(plan, names, display);
    const note = text.split("\n").find((line) => line.includes("gramsPerDrop"));
    expect(note).not.toContain(names[first.toner]);
    for (const { toner, grams } of others) {
      expect(text).toContain(`${grams.toFixed(1)} g`);
      expect(note).toContain(names[toner]);
    }
    for (const { formula } of plan.formulas) expect(text).toContain(formula);
  });

  it("says first that nothing is to be trusted where the formula explains nothing, and gives nothing to weigh", () => {
    const wrong = planHoldBack({ ...job, formula: "sage green, later years" });
    const text = flat(holdBackText(wrong));
    expect(text).toMatch(/does not explain every panel: trust nothing/);
    expect(text).toContain("Weigh nothing yet.");
    expect(text).not.toMatch(/\d g\b|isocyanates/);
  });
});

describe("massText", () => {
  it("has the ounce of the 1959 agreement", () => {
    expect(massText(28.349523125, { unit: "oz" })).toBe("1.000 oz");
    expect(massText(12.34, { unit: "g" })).toBe("12.34 g");
  });

  it.each([
    ["whole drops", 0.6, "12 drops"],
    ["one drop", 0.05, "1 drop"],
    ["no whole number of drops as none", 0.07, "0.07 g"],
    ["more drops than one counts as grams", 4.4, "4.4 g"],
    ["none", 0, "0 drops"],
  ])("counts %s", (_, grams, text) => {
    const display = { unit: "drops", gramsPerDrop: { black: 0.05 } } as const;
    expect(massText(grams, display, "black")).toBe(text);
    expect(massText(grams, display, "white")).toMatch(/ g$/);
    expect(massText(grams, display)).toMatch(/ g$/);
  });
});
