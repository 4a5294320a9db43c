import { describe, expect, it } from "vitest";
import { flopIndex } from "../../src/doors/colorimetry.js";
import { type Correction, correct, type Job } from "../../src/doors/index.js";
import { adviseNextStep } from "../../src/doors/planning.js";
import type { Texture } from "../../src/problem/job.js";
import { correctionDetails } from "../../src/report/correction/correctionDetails.js";
import { correctionHtml } from "../../src/report/correction/correctionHtml.js";
import { correctionNotes } from "../../src/report/correction/correctionNotes.js";
import { correctionText } from "../../src/report/correction/correctionText.js";
import { anglePlot } from "../../src/report/plots/anglePlot.js";
import { faceAndFlopWords } from "../../src/report/words/faceAndFlopWords.js";
import { horseboxJob } from "../fixtures/horsebox.js";
import { readingsLying, withOrientation } from "../fixtures/threeAngles.js";
import { refusal } from "../support/refusal.js";
import { everyNode, parseMarkup, textsOf } from "./parseMarkup.js";

const pot = { silver: 80, white: 0, black: 10, blue: 10 };
const job = (panel: Readonly<Record<string, number>>, x: number, texture: Texture = "same"): Job => ({
  toners: withOrientation(),
  viewing: { observer: "1964-10", illuminants: [{ name: "D65" }] },
  pot,
  card: { readings: readingsLying(pot, 0) },
  targets: [{ name: "door", readings: readingsLying(panel, x), texture }],
});
const jobs = {
  pour: job({ ...pot, blue: 13 }, 0),
  respray: job(pot, 0.15),
  both: job({ ...pot, blue: 18 }, 0.15),
  "other-flake": job(pot, 0, "coarser"),
};
const answers = Object.fromEntries(Object.entries(jobs).map(([name, one]) => [name, correct(one)])) as Record<
  keyof typeof jobs,
  Correction
>;

describe("words for face and flop", () => {
  it("name what each side does, and both at once where it is the same", () => {
    const grey = { face: [60, 0, 0], flop: [30, 0, 0] } as const;
    expect(faceAndFlopWords(grey, { face: [63, 0, 0], flop: [30, 0, -2] })).toBe("face lighter; flop bluer");
    expect(faceAndFlopWords(grey, { face: [61, 0, 0], flop: [31, 0, 0] })).toBe("face and flop lighter");
  });
});

describe("a job of several angles", () => {
  it("says where it is furthest off, and what the panel is from both sides", () => {
    const text = correctionText(answers.pour);
    expect(text).toMatch(/door [\d.]+ off at 45as\d+ \(ΔE00/);
    expect(text).toMatch(/door against the card: face (and flop )?[a-z ,;]+\./);
    const index = (which: "labBefore" | "labTarget") => {
      const at = (angle: string) =>
        answers.pour.predictions.find(({ geometry }) => geometry === angle)?.[which][0] ?? Number.NaN;
      return flopIndex({ at15: at("45as15"), at45: at("45as45"), at110: at("45as110") })?.toFixed(1);
    };
    expect(text.replace(/\s+/g, " ")).toContain(`Flop index: card ${index("labBefore")}, after the pours`);
    expect(text.replace(/\s+/g, " ")).toContain(`panel ${index("labTarget")}.`);
  });

  it("says of each pour what it does to face and flop", () => {
    const [first] = answers.pour.additions;
    const of = (angle: string) =>
      answers.pour.predictions.find(
        ({ geometry }) => geometry === angle,
      ) as Correction["predictions"][number];
    const before = { face: of("45as15").labBefore, flop: of("45as110").labBefore };
    expect(first.faceAndFlop).toBeDefined();
    const words = faceAndFlopWords(before, first.faceAndFlop ?? before);
    expect(correctionDetails(answers.pour)).toContain(words);
    if (answers.pour.additions.length === 1) {
      expect(first.faceAndFlop?.flop).toEqual(of("45as110").labAfter);
    }
  });

  it("draws one plot over the angles in the place of a strip for each", () => {
    const root = parseMarkup(correctionHtml(jobs.pour, answers.pour).replace("<!doctype html>\n", ""));
    const titles = textsOf(root, "title");
    expect(titles.filter((title) => title.startsWith("Over the angle"))).toHaveLength(1);
    expect(titles.filter((title) => title.startsWith("Reflectance of card"))).toEqual([]);
    const captions = textsOf(root, "caption");
    expect(captions.some((caption) => caption.startsWith("Flop index (Alman 1987)"))).toBe(true);
  });
});

describe("where grams are no answer", () => {
  it.each(["respray", "other-flake"] as const)(
    "%s lists no pours, and no prediction that is none",
    (status) => {
      const answer = answers[status];
      expect(answer.status).toBe(status);
      const html = correctionHtml(jobs[status], answer);
      const texts = [correctionText(answer), correctionDetails(answer), html];
      for (const text of texts) expect(text).not.toMatch(/after the pours|which makes it|scale shows/);
      const heads = everyNode(parseMarkup(html.replace("<!doctype html>\n", "")))
        .filter(({ name }) => name === "th")
        .map(({ text }) => text);
      expect(heads.includes("sprayed so")).toBe(status === "respray");
      expect(heads.includes("after")).toBe(false);
    },
  );

  it("pours before another spraying are listed, with what pours and spraying make together", () => {
    const answer = answers.both;
    expect(answer.status).toBe("respray");
    const [{ grams }] = answer.additions;
    const html = correctionHtml(jobs.both, answer);
    for (const text of [correctionText(answer), html]) {
      expect(text).toContain("its paint differs too");
      expect(text).toContain(`${grams}`);
      expect(text).not.toMatch(/pour nothing|grams cannot/i);
    }
    expect(correctionText(answer).replace(/\s+/g, " ")).toMatch(
      /Flop index: card [\d.]+, poured and sprayed so/,
    );
    const heads = everyNode(parseMarkup(html.replace("<!doctype html>\n", "")))
      .filter(({ name }) => name === "th")
      .map(({ text }) => text);
    expect(heads).toContain("after");
  });

  it("a card sprayed so is predicted nearer, of another flake nothing is", () => {
    const { before, after } = answers.respray.weightedDeltaE00;
    expect(after).toBeLessThan(before / 3);
    const other = answers["other-flake"];
    expect(other.weightedDeltaE00.after).toBe(other.weightedDeltaE00.before);
  });

  it("asks for no card of a pot that needs another flake", () => {
    const next = adviseNextStep(jobs["other-flake"], answers["other-flake"]);
    expect(correctionText(answers["other-flake"], {}, { nextStep: next })).not.toContain("spray a card");
    expect(correctionText(answers.respray)).toContain("Next: stir, spray a card so");
  });

  it("an alternative with white is said to tilt the flake", () => {
    const lighter = correct(job({ ...pot, white: 4 }, 0));
    const grams = lighter.additions.map(({ toner, grams: amount }) => ({ toner, grams: amount }));
    expect(grams.map(({ toner }) => toner)).toContain("white");
    const choice = { pours: 1, grams: 1, weightedDeltaE00: 0.2, isWithinTolerance: true };
    const alternatives = [
      { ...choice, kind: "closer", additions: [{ toner: "white", grams: 1 }] },
      { ...choice, kind: "fewer-pours", additions: [{ toner: "blue", grams: 1 }] },
    ] as const;
    const { otherWays } = correctionNotes({ ...lighter, alternatives }, {});
    expect(otherWays.map((line) => line.includes("white tilts the flake"))).toEqual([true, false]);
  });
});

describe("anglePlot", () => {
  it("describes the difference at every angle, and keeps hues together across 0°", () => {
    const { svg } = anglePlot(answers.pour);
    for (const { deltaE00Before } of answers.pour.predictions) {
      expect(svg).toContain(`ΔE00 ${deltaE00Before.toFixed(2)} on the card`);
    }
    const around = (hue: number) => {
      const radians = (hue * Math.PI) / 180;
      return [50, 20 * Math.cos(radians), 20 * Math.sin(radians)] as const;
    };
    const [one, two] = answers.pour.predictions;
    const turned = [
      { ...one, labBefore: around(358), labAfter: around(359), labTarget: around(1) },
      { ...two, labBefore: around(2), labAfter: around(1), labTarget: around(3) },
    ];
    const labels = textsOf(parseMarkup(anglePlot({ predictions: turned }).svg), "text");
    // A span of twenty degrees at least, and nothing near the 360 that two ways of writing it would span.
    expect(labels).toContain("10");
    expect(labels).not.toContain("300");
  });

  it("refuses a job of one angle", () => {
    const { predictions } = correct(horseboxJob());
    expect(refusal(() => anglePlot({ predictions })).code).toBe("missing");
  });
});
