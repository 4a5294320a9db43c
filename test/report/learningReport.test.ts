import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readRecord } from "../../src/formats/jobRecord.js";
import { learnStrengths } from "../../src/planning/learning/learnStrengths.js";
import { jobState } from "../../src/record/jobState.js";
import { learningHtml } from "../../src/report/planning/learningHtml.js";
import { strengthPlot } from "../../src/report/plots/strengthPlot.js";
import { decimals } from "../../src/report/words/decimals.js";
import { tonerNames } from "../../src/report/words/tonerName.js";
import { horseboxRecord, horseboxToners } from "../fixtures/horsebox.js";
import { everyNode, type Node, parseMarkup, textsOf } from "./parseMarkup.js";

const { cards, cans } = jobState(readRecord(horseboxRecord()).entries);
const toners = horseboxToners();
const names = tonerNames(toners);
const learning = learnStrengths({ toners, pots: [{ name: "horsebox", cans, cards }] });
const html = learningHtml(learning);
const read = (page: string) => parseMarkup(page.replace("<!doctype html>\n", ""));
const root = read(html);
const textOf = (node: Node): string => node.text + node.children.map(textOf).join(" ");

describe("learningHtml", () => {
  it("is the same bytes each time, and needs nothing else", () => {
    expect(learningHtml(learning)).toBe(html);
    expect(html.replaceAll("http://www.w3.org/2000/svg", "")).not.toMatch(
      /https?:|url\(|<script|<link| src=/,
    );
  });

  it("says first what is not believed and why, then the cans, then card by card", () => {
    expect(textsOf(root, "h1")).toEqual(["Strength of the cans"]);
    expect(textsOf(root, "h2")).toEqual(["Not believed", "The cans", "Card by card"]);
    expect(textsOf(root, "li").join()).toMatch(/as if [\d.]+ g Bluish green had been poured, not [\d.]+ g/);
    expect(textOf(root)).toContain("card 3 is not believed");
  });

  it("shows of every can in the pots its strength before, now, and its interval", () => {
    const cells = textsOf(root, "td");
    const inPots = learning.strengths.filter(({ toner }) =>
      cards.some(({ pot }) => Object.hasOwn(pot, toner)),
    );
    expect(inPots.length).toBeGreaterThan(5);
    for (const { toner, strength, sdInPot = Number.NaN } of inPots) {
      expect(textsOf(root, "th")).toContain(names[toner]);
      expect(cells).toContain(decimals(strength, 3));
      const end = (side: number) => decimals(strength * Math.exp(side * 1.645 * sdInPot), 2);
      expect(cells).toContain(`${end(-1)}–${end(1)}`);
    }
    expect(cells).toContain("G-7");
  });

  it("says that nothing was learnt where no card is believed, and shows no strengths", () => {
    const doubted = learning.cards.filter(({ verdict }) => verdict === "doubted");
    const page = read(learningHtml({ ...learning, cards: doubted }));
    expect(textsOf(page, "h2")).toEqual(["Not believed", "Card by card"]);
    expect(textOf(page)).toContain("Nothing learnt");
  });

  it("counts drops of what is calibrated and says what is not", () => {
    const inDrops = (gramsPerDrop: Record<string, number>) =>
      textOf(read(learningHtml(learning, { display: { unit: "drops", gramsPerDrop } })));
    expect(inDrops({ green: 0.02 })).toMatch(/as if [\d.]+ (drops|g) Bluish green had been poured, not/);
    expect(inDrops({ green: 0.02 })).not.toMatch(/\d{3} drops|\d\.\d drops/);
    expect(inDrops({})).toMatch(/gramsPerDrop\): Bluish green/);
  });

  it("keeps whatever names hold as text", () => {
    const nasty = `<b>&"'`;
    const spoilt = {
      ...learning,
      cards: learning.cards.map((card) => ({ ...card, card: nasty, pot: nasty })),
    };
    const page = read(learningHtml(spoilt, { names: { green: nasty } }));
    expect(everyNode(page).map(({ name }) => name)).not.toContain("b");
  });
});

describe("strengthPlot", () => {
  it("has a row for each toner in the pots and a key for each believed card", () => {
    const picture = parseMarkup(strengthPlot(learning, names).svg);
    const texts = textsOf(picture, "text");
    expect(texts).toEqual(expect.arrayContaining(["before", "after card 1", "after card 2", "Deep black"]));
    expect(texts).not.toContain("after card 3");
    expect(texts).not.toContain("Violet");
    expect(textsOf(picture, "desc")[0]).toMatch(/Deep black: 1\.00, –, \d\.\d\d\./);
  });

  it("is sound whatever the numbers are", () => {
    const any = fc.double();
    fc.assert(
      fc.property(any, any, any, any, (strengthBefore, sdBefore, strength, sd) => {
        const beliefs = [{ toner: "green", strengthBefore, sdBefore, strength, sd }];
        const { svg } = strengthPlot({
          strengths: learning.strengths,
          cards: [{ ...learning.cards[0], beliefs }],
        });
        expect(svg).not.toMatch(/NaN|undefined|Infinity/);
      }),
      { numRuns: 100 },
    );
  });
});
