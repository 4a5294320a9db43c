import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Characterisation } from "../../src/characterisation/characterisation.js";
import { characterisationDetails } from "../../src/report/characterisation/characterisationDetails.js";
import { characterisationHtml } from "../../src/report/characterisation/characterisationHtml.js";
import { fitSummary, nearestRank } from "../../src/report/characterisation/fitSummary.js";
import { wavelengthsText } from "../../src/spectra/wavelengthRanges.js";
import { characterisation, samples } from "./inventedCharacterisation.js";
import { everyNode, parseMarkup, textsOf } from "./parseMarkup.js";

const read = (html: string) => parseMarkup(html.replace("<!doctype html>\n", ""));

const { noiseScale, surfaceEstimates, densities, ...plain } = characterisation;
const empty: Characterisation = {
  ...plain,
  quality: [],
  samples: [],
  nextMeasurements: [],
  warnings: [],
  condition: Number.POSITIVE_INFINITY,
};

describe("nearestRank", () => {
  it.each([
    [[3, 1, 2], 0.5, 2],
    [[4, 1, 2, 3], 0.5, 2],
    [[1, 2, 3, 4, 5, 6, 7, 8, 9, 10], 0.9, 9],
    [[5, Number.NaN, Number.POSITIVE_INFINITY], 1, 5],
    [[], 0.5, Number.NaN],
  ])("of %j at %d is %d", (values, share, expected) => {
    expect(nearestRank(values, share)).toBe(expected);
  });
});

describe("fitSummary", () => {
  it("counts a sample by its worst reading, worst sample first, without touching the input", () => {
    const before = characterisation.samples.map(({ name }) => name);
    const { samples: judged, fitted, leftOut } = fitSummary(characterisation.samples);
    const worst = Math.max(
      ...characterisation.samples.flatMap(({ readings }) => readings.map(({ deltaE00 }) => deltaE00)),
    );
    expect(judged[0].deltaE00).toBe(worst);
    expect(fitted.max).toBe(worst);
    expect(leftOut?.max).toBeCloseTo(1.3 * worst, 12);
    expect(characterisation.samples.map(({ name }) => name)).toEqual(before);
  });

  it("puts samples without a difference last, and says nothing of what was not asked for", () => {
    const [first, second] = characterisation.samples;
    const { samples: judged, leftOut } = fitSummary([
      { name: "unread", readings: [] },
      { ...first, readings: first.readings.map(({ deltaE00LeftOut, ...reading }) => reading) },
    ]);
    expect(judged.map(({ sample }) => sample.name)).toEqual([first.name, "unread"]);
    expect(leftOut).toBeUndefined();
    expect(fitSummary([second]).leftOut).toBeDefined();
  });
});

describe("wavelengthsText", () => {
  it.each([
    [[430, 400, 410], 10, "400–410, 430 nm"],
    [[550], 5, "550 nm"],
    [[400, 403.33, 406.67], 10 / 3, "400–406.67 nm"],
  ])("says %j as %s", (wavelengths, step, text) => {
    expect(wavelengthsText(wavelengths, step)).toBe(text);
  });
});

describe("characterisationDetails", () => {
  const text = characterisationDetails(characterisation);

  it("says first what is wrong, then how well it went", () => {
    const places = [
      "! samples[6]: Two bands",
      "in the fit",
      "The worst of them",
      "was it stirred?",
      "S at 400–430 nm (too dark)",
      "k2 of the surface, d:8 specular excluded     0.612  0.004",
      "density of Deep black against the reference  1.050  0.021",
      "only 309 of 310 unknowns are determined (condition 1.2e4)",
      "1.40 times the noise that was stated",
      "5 % Deep black + 95 % Strong white",
    ].map((words) => text.indexOf(words));
    expect(places).not.toContain(-1);
    expect(places).toEqual([...places].sort((a, b) => a - b));
  });

  it("shows exactly three of the worst", () => {
    const [, table] = text.split("The worst of them:\n\n");
    expect(table.split("\n\n")[0].split("\n")).toHaveLength(1 + 3);
  });

  it("calls toners by the given names before their own, and their own before ids", () => {
    expect(characterisationDetails(characterisation, { black: "Soot" })).toContain(
      "5 % Soot + 95 % Strong white",
    );
  });

  it("gives no more than five pieces of advice", () => {
    const [next] = characterisation.nextMeasurements;
    const many = { ...characterisation, nextMeasurements: Array.from({ length: 40 }, () => next) };
    const [, advice] = characterisationDetails(many).split("What to measure next");
    expect(advice.match(/black and white/g)).toHaveLength(5);
  });

  it("has an answer without samples, qualities or an end of the condition", () => {
    const bare = characterisationDetails(empty);
    expect(bare).toContain("condition without bound");
    expect(bare).not.toMatch(/NaN|undefined|Infinity/);
  });
});

describe("characterisationHtml", () => {
  const html = characterisationHtml(characterisation, { samples });
  const root = read(html);

  it("is the same bytes each time, and needs nothing else", () => {
    expect(characterisationHtml(characterisation, { samples })).toBe(html);
    expect(html.replaceAll("http://www.w3.org/2000/svg", "")).not.toMatch(
      /https?:|url\(|<script|<link| src=/,
    );
  });

  it("puts the warnings before every table and figure", () => {
    expect(html.indexOf("Two bands lie below")).toBeGreaterThan(0);
    expect(html.indexOf("Two bands lie below")).toBeLessThan(html.indexOf("<table"));
    expect(characterisationHtml(empty)).not.toContain("Warnings");
  });

  it("has one h1, headings that skip no level, and a language", () => {
    const levels = everyNode(root)
      .filter(({ name }) => /^h\d$/.test(name))
      .map(({ name }) => Number(name[1]));
    expect(levels.filter((level) => level === 1)).toHaveLength(1);
    levels.forEach((level, i) => {
      expect(level - (levels[i - 1] ?? 0)).toBeLessThanOrEqual(1);
    });
    expect(root.attributes.lang).toBe("en");
  });

  it("says of every head of a table what it is the head of", () => {
    const heads = everyNode(root).filter(({ name }) => name === "th");
    expect(heads.length).toBeGreaterThan(20);
    for (const { attributes, text } of heads) {
      expect(["col", "row"]).toContain(attributes.scope);
      expect(text).not.toBe("");
    }
    expect(textsOf(root, "caption")).toHaveLength(
      everyNode(root).filter(({ name }) => name === "table").length,
    );
  });

  it("draws every toner, every ladder, the worst three samples and every outlier", () => {
    const titles = everyNode(root)
      .filter(({ name }) => name === "svg")
      .map(({ children }) => children[0].text);
    expect(titles.filter((title) => title.includes("K and S"))).toHaveLength(5);
    expect(titles.filter((title) => title.includes("tint ladder"))).toHaveLength(4);
    expect(titles.filter((title) => title.includes("measured and predicted"))).toHaveLength(4);
    expect(titles.at(-1)).toContain("Bright yellow 5 %");
  });

  it("keeps whatever names hold as text", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary", minLength: 1 }), (name) => {
        const nasty = `<b>&"'${name}`;
        const [sample] = characterisation.samples;
        const page = read(
          characterisationHtml(
            {
              ...characterisation,
              samples: [{ ...sample, name: nasty, outlier: nasty }],
              stopReason: nasty,
              warnings: [{ code: "resampled", message: nasty, path: nasty }],
            },
            { names: { white: nasty } },
          ),
        );
        expect(everyNode(page).map((node) => node.name)).not.toContain("b");
      }),
      { numRuns: 20 },
    );
  });

  it("is whole without samples, qualities, warnings or advice", () => {
    const bare = characterisationHtml(empty);
    expect(textsOf(read(bare), "h2")).toContain("The samples");
    expect(bare).not.toMatch(/NaN|undefined|Infinity/);
  });
});
