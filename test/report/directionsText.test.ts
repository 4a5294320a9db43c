import { describe, expect, it } from "vitest";
import { tonerDirections } from "../../src/prediction/tonerDirections.js";
import { directionGroups } from "../../src/report/correction/directionGroups.js";
import { directionsDetails } from "../../src/report/correction/directionsDetails.js";
import { directionsHtml } from "../../src/report/correction/directionsHtml.js";
import { directionsText } from "../../src/report/correction/directionsText.js";
import { tonerNames } from "../../src/report/words/tonerName.js";
import { horseboxJob } from "../fixtures/horsebox.js";
import { everyNode, parseMarkup, textsOf } from "./parseMarkup.js";

const answer = tonerDirections(horseboxJob());
const names = tonerNames(horseboxJob().toners);

describe("directionsDetails", () => {
  const text = directionsDetails(answer, { violet: "Purple tin" });

  it("puts the strongest toner first, under its name, with numbers and words per light", () => {
    const { directions, colours } = answer;
    const strongest = [...directions].sort((a, b) => b.deltaE00PerGram - a.deltaE00PerGram)[0];
    expect(strongest.toner).toBe("violet");
    const rows = text.split("\n").filter((line) => line.startsWith("  Purple tin"));
    expect(rows).toHaveLength(1 + colours.length);
    expect(rows[0]).toContain(strongest.deltaE00PerGram.toFixed(3));
    strongest.perGram.forEach(({ deltaLab, deltaChroma, deltaHue, deltaE00 }, c) => {
      for (const value of [deltaLab[0], deltaChroma, deltaHue, deltaE00]) {
        expect(rows[c + 1]).toContain(value.toFixed(2));
      }
      expect(rows[c + 1]).toMatch(/bluer/);
    });
  });

  it("names what does the same, and says whether a card stands behind the numbers", () => {
    expect(text).toMatch(/^ {2}black +[\d.]+ {2}weak-black \(1\.000\)$/m);
    expect(text).toContain("from the card");
    const { card: _, ...mix } = horseboxJob();
    expect(directionsDetails(tonerDirections(mix))).toContain("not tied to a card");
  });
});

describe("directionGroups", () => {
  it("puts every toner into one group, under a stronger one that does nearly the same", () => {
    const groups = directionGroups(answer);
    const all = groups.flatMap(({ leader, others }) => [leader.toner, ...others.map(({ toner }) => toner)]);
    expect([...all].sort()).toEqual(answer.directions.map(({ toner }) => toner).sort());
    for (const { leader, others } of groups) {
      for (const { toner, strength } of others) {
        expect(strength).toBeLessThanOrEqual(1);
        const found = answer.directions.find((one) => one.toner === toner);
        expect(strength * leader.deltaE00PerGram).toBeCloseTo(found?.deltaE00PerGram ?? Number.NaN, 12);
        expect(leader.alike.find((one) => one.toner === toner)?.cosine).toBeGreaterThanOrEqual(0.9);
      }
    }
    expect(groups.find(({ leader }) => leader.toner === "black")?.others.map(({ toner }) => toner)).toEqual([
      "weak-black",
    ]);
  });
});

describe("the tinting chart", () => {
  it("fits one screen, with a card and without one, and says which it is", () => {
    const { card: _, ...mix } = horseboxJob();
    const long = Object.fromEntries(
      answer.directions.map(({ toner }, i) => [toner, `${i}${"x".repeat(98)}`]),
    );
    for (const [one, said] of [
      [answer, /tied to its card/],
      [tonerDirections(mix), /no card has\s+shown/],
    ] as const) {
      for (const called of [names, long]) {
        const text = directionsText(one, called);
        expect(text).toMatch(said);
        const lines = text.trimEnd().split("\n");
        expect(lines.length).toBeLessThanOrEqual(25);
        for (const line of lines) expect([...line].length, line).toBeLessThanOrEqual(80);
      }
    }
    expect(directionsText(answer, names)).toMatch(/Deep black +[\d.]+ +[\d.]+ g Weak black +darker/);
  });

  it("draws the way of every toner that moves the colour, and lists all", () => {
    const page = parseMarkup(
      directionsHtml(answer, { names, head: { date: "2026-03-31" } }).replace("<!doctype html>\n", ""),
    );
    const drawn = everyNode(page)
      .filter(({ attributes }) => attributes.class === "on-data")
      .map(({ text }) => text);
    expect(drawn).toContain("Violet");
    expect(drawn).not.toContain("Clear binder");
    expect(textsOf(page, "th")).toContain("Clear binder");
    expect(textsOf(page, "dd")).toContain("2026-03-31");
  });
});
