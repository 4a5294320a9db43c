import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { printable } from "../../src/core/printable.js";
import { correctionSpectra } from "../../src/correction/correctionSpectra.js";
import { certify } from "../../src/doors/certificate.js";
import { type Correction, correct, type Job } from "../../src/doors/index.js";
import { adviseNextStep } from "../../src/doors/planning.js";
import { SPRAYING_CAUTION } from "../../src/doors/report.js";
import { correctionHtml } from "../../src/report/correction/correctionHtml.js";
import { correctionNotes } from "../../src/report/correction/correctionNotes.js";
import { correctionText } from "../../src/report/correction/correctionText.js";
import { swatches } from "../../src/report/page/swatches.js";
import { differencePlot } from "../../src/report/plots/differencePlot.js";
import { gramsText } from "../../src/report/words/gramsText.js";
import { tonerNames } from "../../src/report/words/tonerName.js";
import { horseboxJob } from "../fixtures/horsebox.js";
import { refusal } from "../support/refusal.js";
import { everyNode, type Node, parseMarkup, textsOf } from "./parseMarkup.js";

const job = horseboxJob();
const correction = correct(job);
const html = correctionHtml(job, correction);
const read = (page: string) => parseMarkup(page.replace("<!doctype html>\n", ""));
const root = read(html);
const bodyOf = (node: Node) => everyNode(node).find(({ name }) => name === "body") as Node;
const textOf = (node: Node): string => node.text + node.children.map(textOf).join(" ");

const goodEnough: Job = {
  ...job,
  targets: [{ name: "the card itself", readings: job.card.readings }],
};

describe("correctionSpectra", () => {
  const [spectra, ...others] = correctionSpectra(job, correction);

  it("gives the card back as it was read, the targets as they were", () => {
    expect(others).toEqual([]);
    const [card] = job.card.readings;
    expect(spectra.geometry).toBe(card.geometry);
    spectra.card.forEach((value, b) => {
      expect(value).toBeCloseTo(card.reflectance[b], 12);
    });
    expect(spectra.targets.map(({ name }) => name)).toEqual(job.targets.map(({ name }) => name));
    spectra.targets.forEach(({ reflectance }, t) => {
      expect(reflectance).toEqual(Array.from(job.targets[t].readings[0].reflectance));
    });
  });

  it("predicts the colour that the correction tells", () => {
    const { geometry, grid, after } = spectra;
    const onCard = correct({ ...job, card: { readings: [{ geometry, grid, reflectance: after }] } });
    const before = onCard.predictions.map(({ labBefore }) => labBefore);
    correction.predictions.forEach(({ labAfter }, i) => {
      labAfter.forEach((value, axis) => {
        expect(value).toBeCloseTo(before[i][axis], 8);
      });
    });
  });
});

describe("correctionHtml", () => {
  it("is the same bytes each time, and needs nothing else", () => {
    expect(correctionHtml(job, correction)).toBe(html);
    expect(html.replaceAll("http://www.w3.org/2000/svg", "")).not.toMatch(
      /https?:|url\(|<script|<link| src=|@import/,
    );
  });

  it("has its parts in order: status, pours, warnings, and the caution last", () => {
    const heads = textsOf(root, "h2");
    expect(heads).toEqual([
      "Pour",
      "Beware",
      "How it looks, how far it is off",
      "Other ways",
      "Why these toners",
      "Safety",
    ]);
    const text = textOf(bodyOf(root));
    expect(text.indexOf("Not there yet: ")).toBeLessThan(text.indexOf("Zero the scale"));
    expect(text.trimEnd().endsWith(SPRAYING_CAUTION)).toBe(true);
  });

  it("shows every pour with its grams and the running total, and what is in the cup afterwards", () => {
    const [pours] = everyNode(root).filter(({ name }) => name === "table");
    const rows = everyNode(pours)
      .filter(({ name }) => name === "tr")
      .slice(1)
      .map((row) => row.children.map(({ text }) => text));
    let total = 0;
    correction.additions.forEach(({ grams }, i) => {
      total += grams;
      expect(rows[i].slice(2, 4)).toEqual([gramsText(grams), gramsText(total)]);
    });
    expect(rows).toHaveLength(correction.additions.length);
    expect(html).toContain(`The pot then holds ${gramsText(correction.potGramsAfter)} g`);
  });

  it("has one h1, headings that skip no level, and a language", () => {
    const levels = everyNode(root)
      .filter(({ name }) => /^h\d$/.test(name))
      .map(({ name }) => Number(name[1]));
    expect(levels[0]).toBe(1);
    expect(levels.slice(1).every((level) => level === 2)).toBe(true);
    expect(root.attributes.lang).toBe("en");
  });

  it("says of every head of a table what it is the head of, and of every picture what it shows", () => {
    const nodes = everyNode(root);
    const heads = nodes.filter(({ name }) => name === "th");
    expect(heads.length).toBeGreaterThan(10);
    for (const { attributes, text } of heads) {
      expect(["col", "row"]).toContain(attributes.scope);
      expect(text).not.toBe("");
    }
    expect(textsOf(root, "caption")).toHaveLength(nodes.filter(({ name }) => name === "table").length);
    const pictures = nodes.filter(({ name }) => name === "svg");
    expect(pictures).toHaveLength(job.targets.length + 3);
    for (const { attributes, children } of pictures) {
      expect(attributes.role).toBe("img");
      expect(children.slice(0, 2).map(({ name }) => name)).toEqual(["title", "desc"]);
      for (const { text } of children.slice(0, 2)) expect(text.length).toBeGreaterThan(10);
    }
  });

  it("has a head that is the same on every printed page, with blanks for what is not said", () => {
    const page = correctionHtml(job, correction, { head: { job: "a'b}c", date: "2026-03-31" } });
    const said = textsOf(read(page), "dd");
    expect(said).toEqual(["a'b}c", "253.0 g now", "2026-03-31"]);
    expect(page).toContain(
      "content:'Correction of a pot \\b7  a\\27 b\\7d c \\b7  253.0 g now \\b7  2026-03-31'",
    );
    expect(page).toContain("counter(page) ' of ' counter(pages)");
    expect(html).not.toMatch(/20\d\d-\d\d-\d\d/);
    expect(everyNode(root).filter(({ attributes }) => attributes.class === "blank")).toHaveLength(2);
  });

  it("has a box to tick and room to write beside every pour", () => {
    const of = (name: string) => everyNode(root).filter(({ attributes }) => attributes.class === name);
    expect(of("tick")).toHaveLength(correction.additions.length);
    expect(of("written")).toHaveLength(correction.additions.length);
  });

  it("shows where the next card will lie, and pours the first grams alone where that was forecast", () => {
    const expected = correct(job, { forecast: true });
    const forecast = expected.forecast as NonNullable<typeof expected.forecast>;
    const cautious: Correction = { ...expected, forecast: { ...forecast, pour: "first" } };
    const [pours, differences] = everyNode(read(correctionHtml(job, cautious))).filter(
      ({ name }) => name === "table",
    );
    const rowsOf = (table: Node) =>
      everyNode(table)
        .filter(({ name }) => name === "tr")
        .map((row) => row.children.map(({ text }) => text));
    const [, ...pourRows] = rowsOf(pours);
    const first = Object.values(forecast.first.grams).filter((grams) => grams > 0);
    expect(pourRows.map(([, , grams]) => grams).sort()).toEqual(first.map(gramsText).sort());
    const [head, ...rows] = rowsOf(differences);
    forecast.full.cards.forEach(({ deltaE00 }, i) => {
      expect(rows[i][head.indexOf("next card")]).toBe(
        `${deltaE00.low.toFixed(2)}–${deltaE00.high.toFixed(2)}`,
      );
    });
    const bold = textOf(read(correctionHtml(job, { ...expected, forecast: { ...forecast, pour: "full" } })));
    expect(bold).not.toContain("first grams only");
    expect(textOf(read(correctionHtml(job, cautious)))).toContain("first grams only");
  });

  it("lists pours only where the step is to pour", () => {
    const { grams: _, ...advice } = adviseNextStep(job, correct(job, { forecast: true }));
    const page = read(correctionHtml(job, correction, { nextStep: { ...advice, step: "re-measure" } }));
    expect(textsOf(page, "h2")).not.toContain("Pour");
    expect(everyNode(page).filter(({ attributes }) => attributes.class === "tick")).toEqual([]);
    expect(textOf(page)).toContain("Pour nothing yet.");
    expect(textOf(page)).not.toContain("isocyanates");
  });

  it("tells of other ways, ties, unused toners and a finer scale what the text tells", () => {
    const told: Correction = {
      ...correction,
      weightedDeltaE00: { before: 3, after: 0.4 },
      finerScale: { stepGrams: 0.01, weightedDeltaE00: 0.1 },
    };
    const { otherWays, why } = correctionNotes(told, tonerNames(job.toners));
    expect(told.alternatives.length).toBeGreaterThan(0);
    expect(why.some((line) => line.includes("rather than"))).toBe(true);
    expect(why.some((line) => line.startsWith("not used"))).toBe(true);
    expect(why.some((line) => line.includes("0.01 g"))).toBe(true);
    const lines = textsOf(read(correctionHtml(job, told)), "li");
    for (const line of [...otherWays, ...why]) expect(lines).toContain(line);
  });

  it("counts drops where they were asked for and calibrated, and says what is in grams", () => {
    const [first, second] = correction.additions;
    const display = { unit: "drops", gramsPerDrop: { [first.toner]: first.grams / 12 } } as const;
    const page = correctionHtml(job, correction, { display });
    const cells = textsOf(read(page), "td");
    expect(cells).toContain("12 drops");
    expect(cells).toContain(`${gramsText(second.grams)} g`);
    expect(textsOf(read(page), "p").some((text) => text.includes("gramsPerDrop"))).toBe(true);
    expect(html).not.toContain("gramsPerDrop");
  });

  it("tells that a screen proves nothing", () => {
    expect(html).toContain("A screen or print is no proof.");
  });

  it("shows no pours where nothing is to be poured, and the caution, since it will be sprayed", () => {
    const page = read(correctionHtml(goodEnough, correct(goodEnough)));
    expect(textsOf(page, "h2").slice(0, 2)).toEqual(["What to do", "How it looks, how far it is off"]);
    expect(textOf(page)).toContain("Good enough:");
    expect(textOf(page)).toContain("isocyanates");
  });

  it("says what is in the way where a target is out of reach", () => {
    const grey = { ...job.targets[0].readings[0], reflectance: new Array(31).fill(0.06) };
    const dark = { ...job, limits: { maxPours: 1 }, targets: [{ name: "grey", readings: [grey] }] };
    const answer = correct(dark);
    expect(answer.status).toBe("out-of-reach");
    const certificate = certify(dark, answer);
    const page = correctionHtml(dark, answer, { certificate });
    expect(textsOf(read(page), "h2")[0]).toBe("What is in the way");
    expect(page).toContain("it would take more pours than are allowed");
    expect(page).toContain(certificate.verdict === "proved-out-of-reach" ? "Proved: " : "Not proved");
    // Nothing is called proved where no certificate was computed.
    expect(correctionHtml(dark, answer)).not.toMatch(/proved/i);
    expect(correctionText(answer)).not.toMatch(/proved/i);
    expect(correctionText(answer, {}, { certificate })).toMatch(/proved/i);
    const { newPot } = answer.wayOut ?? {};
    expect(newPot).toBeTruthy();
    for (const grams of Object.values(newPot?.recipe ?? {})) expect(page).toContain(gramsText(grams));
  });

  it("keeps whatever names hold as text", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary", minLength: 1 }), (name) => {
        const nasty = `<b>&"'${name}`;
        // A job refuses names that do not show as themselves; an answer from elsewhere may have any.
        const targets = job.targets.map((t, i) => ({
          ...t,
          name: `${i}${printable(nasty)}`.replaceAll("\n", ""),
        }));
        const named: Job = { ...job, targets };
        const spoilt: Correction = {
          ...correction,
          predictions: correction.predictions.map((p) => ({ ...p, target: nasty })),
          warnings: [{ code: "resampled", message: nasty, path: nasty }],
        };
        const page = read(
          correctionHtml(named, spoilt, { names: { [correction.additions[0].toner]: nasty } }),
        );
        expect(everyNode(page).map((node) => node.name)).not.toContain("b");
      }),
      { numRuns: 20 },
    );
  });

  it("does not draw a hundred swatches, and says where the others are", () => {
    const many: Job = {
      ...job,
      targets: Array.from({ length: 20 }, (_, i) => ({ ...job.targets[0], name: `panel ${i}` })),
    };
    const page = correctionHtml(many, correct(many));
    expect(textsOf(read(page), "figcaption")).toHaveLength(6);
    expect(page).toContain("14 more are in the table.");
  });
});

describe("differencePlot", () => {
  const [spectra] = correctionSpectra(job, correction);

  it("draws card and mix less every target, each with its key; the mix not where nothing is poured", () => {
    const texts = textsOf(parseMarkup(differencePlot(spectra).svg), "text");
    for (const { name } of job.targets) {
      expect(texts).toContain(`${name}: card`);
      expect(texts).toContain(`${name}: after`);
    }
    const [target] = spectra.targets;
    const still = differencePlot({ ...spectra, after: spectra.card, targets: [target] });
    expect(textsOf(parseMarkup(still.svg), "text")).toContain("card");
    expect(textsOf(parseMarkup(still.svg), "text")).not.toContain("after");
  });

  it("is a line at 0 where the mix is the target, and shows the furthest of many", () => {
    const [{ reflectance }] = spectra.targets;
    const same = parseMarkup(
      differencePlot({ ...spectra, after: reflectance, targets: [spectra.targets[0]] }).svg,
    );
    const heights = everyNode(same)
      .filter(({ name, attributes }) => name === "path" && attributes["stroke-width"] === "1.75")
      .map(
        ({ attributes }) =>
          new Set([...(attributes.d ?? "").matchAll(/[ML][\d.]+ ([\d.]+)/g)].map(([, y]) => y)).size,
      );
    expect(heights).toContain(1);
    const many = Array.from({ length: 9 }, (_, i) => ({
      name: `t${i}`,
      reflectance: spectra.after.map((value) => value + i / 100),
    }));
    const texts = textsOf(parseMarkup(differencePlot({ ...spectra, targets: many }).svg), "text");
    expect(texts.filter((text) => text.endsWith("after"))).toEqual(["t8: after", "t7: after", "t6: after"]);
  });

  it("is sound whatever the numbers are", () => {
    const values = fc.array(fc.double(), { minLength: 31, maxLength: 31 });
    fc.assert(
      fc.property(values, values, values, (card, after, reflectance) => {
        const { svg } = differencePlot({ ...spectra, card, after, targets: [{ name: "t", reflectance }] });
        expect(svg).not.toMatch(/NaN|undefined|Infinity/);
        parseMarkup(svg);
      }),
      { numRuns: 50 },
    );
  });

  it("refuses a curve of another length", () => {
    const short = { ...spectra, targets: [{ name: "t", reflectance: [1] }] };
    expect(refusal(() => differencePlot(short))).toEqual({
      code: "wrong-length",
      path: "targets[0].reflectance",
    });
  });
});

describe("swatches", () => {
  it("names each colour, tells its numbers, and marks what no screen shows", () => {
    const picture = parseMarkup(
      swatches("gate: card, target", [
        { name: "card", lab: [50, 0, 0] },
        { name: "target", lab: [60, -130, 90] },
      ]).markup,
    );
    expect(textsOf(picture, "text")).toEqual(["card", "target*"]);
    expect(textsOf(picture, "desc")[0]).toBe(
      "card: L* a* b* 50.0, 0.0, 0.0; target: L* a* b* 60.0, -130.0, 90.0, outside what a screen shows.",
    );
    const fills = everyNode(picture).flatMap(({ attributes }) => attributes.fill ?? []);
    expect(fills[0]).toBe("#777777");
    expect(fills).toHaveLength(2);
  });
});
