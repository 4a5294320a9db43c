import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { SPRAYING_CAUTION } from "../../src/core/caution.js";
import { planHoldBack } from "../../src/planning/holdBack/planHoldBack.js";
import { holdBackHtml } from "../../src/report/planning/holdBackHtml.js";
import { fadePlot } from "../../src/report/plots/fadePlot.js";
import { gramsText } from "../../src/report/words/gramsText.js";
import { massText } from "../../src/report/words/massText.js";
import { horseboxPlan } from "../planning/horseboxPlan.js";
import { everyNode, type Node, parseMarkup, textsOf } from "./parseMarkup.js";

const job = horseboxPlan();
const plan = planHoldBack(job);
const html = holdBackHtml(job, plan);
const read = (page: string) => parseMarkup(page.replace("<!doctype html>\n", ""));
const root = read(html);
const textOf = (node: Node): string => node.text + node.children.map(textOf).join(" ");

describe("holdBackHtml", () => {
  it("is the same bytes each time, and needs nothing else", () => {
    expect(holdBackHtml(job, plan)).toBe(html);
    expect(html.replaceAll("http://www.w3.org/2000/svg", "")).not.toMatch(
      /https?:|url\(|<script|<link| src=/,
    );
  });

  it("has its parts in order: the plan, pours, warnings, and the caution last", () => {
    const heads = textsOf(root, "h2");
    expect(heads[0]).toMatch(/^First pot/);
    expect(heads[1]).toBe("Beware");
    expect(heads.at(-1)).toBe("Safety");
    expect(textsOf(root, "h1")).toHaveLength(1);
    const body = everyNode(root).find(({ name }) => name === "body") as Node;
    expect(textOf(body).trimEnd().endsWith(SPRAYING_CAUTION)).toBe(true);
  });

  it("shows what to pour now and what to keep back of every toner, in the unit asked for", () => {
    for (const { grams, keptBackGrams } of plan.pots[0].pourNow) {
      expect(textsOf(root, "td")).toContain(gramsText(grams));
      expect(textsOf(root, "span")).toContain(`keep back ${massText(keptBackGrams, { unit: "g" })}`);
    }
    const ounces = holdBackHtml(job, plan, { display: { unit: "oz" } });
    expect(textsOf(read(ounces), "td")).toContain(massText(plan.pots[0].pourNow[0].grams, { unit: "oz" }));
  });

  it("says of every head of a table what it is the head of, and of every picture what it shows", () => {
    for (const { attributes, text } of everyNode(root).filter(({ name }) => name === "th")) {
      expect(["col", "row"]).toContain(attributes.scope);
      expect(text).not.toBe("");
    }
    const pictures = everyNode(root).filter(({ name }) => name === "svg");
    expect(pictures).toHaveLength(2);
    for (const { attributes, children } of pictures) {
      expect(attributes.role).toBe("img");
      expect(children.slice(0, 2).map(({ name }) => name)).toEqual(["title", "desc"]);
    }
  });

  it("keeps whatever names hold as text", () => {
    const nasty = `<b>&"'`;
    const [first] = plan.panels;
    const page = read(
      holdBackHtml(
        job,
        { ...plan, formula: nasty, panels: [{ ...first, panel: nasty }, ...plan.panels.slice(1)] },
        { names: { [plan.pots[0].pourNow[0].toner]: nasty } },
      ),
    );
    expect(everyNode(page).map(({ name }) => name)).not.toContain("b");
  });
});

describe("fadePlot", () => {
  it("names every toner and every panel, with the numbers in its description", () => {
    const picture = parseMarkup(fadePlot(plan).svg);
    const texts = textsOf(picture, "text");
    for (const { panel } of plan.panels) expect(texts).toContain(panel);
    const [{ toner, fraction }] = plan.panels[0].remaining;
    expect(texts).toContain(toner);
    expect(textsOf(picture, "desc")[0]).toContain(`${toner} ${(100 * fraction).toFixed(0)} %`);
  });

  it("is sound whatever the numbers are, and without panels", () => {
    const share = fc.double();
    fc.assert(
      fc.property(share, share, share, (fraction, low, high) => {
        const [panel] = plan.panels;
        const { svg } = fadePlot({
          panels: [{ ...panel, remaining: [{ toner: "t", fraction, low, high }] }],
        });
        expect(svg).not.toMatch(/NaN|undefined|Infinity/);
      }),
      { numRuns: 100 },
    );
    expect(parseMarkup(fadePlot({ panels: [] }).svg).name).toBe("svg");
  });
});
