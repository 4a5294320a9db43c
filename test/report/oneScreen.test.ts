import { describe, expect, it } from "vitest";
import { certify } from "../../src/doors/certificate.js";
import { readRecord } from "../../src/doors/formats.js";
import { type Correction, type CorrectOptions, correct, type Job } from "../../src/doors/index.js";
import {
  adviseNextStep,
  jobState,
  learnStrengths,
  type NextStep,
  planHoldBack,
} from "../../src/doors/planning.js";
import { characterisationText } from "../../src/report/characterisation/characterisationText.js";
import { correctionDetails } from "../../src/report/correction/correctionDetails.js";
import { correctionText } from "../../src/report/correction/correctionText.js";
import { holdBackText } from "../../src/report/planning/holdBackText.js";
import { learningText } from "../../src/report/planning/learningText.js";
import { jobStateText } from "../../src/report/record/jobStateText.js";
import { tonerNames } from "../../src/report/words/tonerName.js";
import { randomJob } from "../certificate/randomJobs.js";
import { JOBS } from "../correction/contract/jobs.js";
import { horseboxJob, horseboxRecord, horseboxToners } from "../fixtures/horsebox.js";
import { horseboxPlan } from "../planning/horseboxPlan.js";
import { characterisation as invented } from "./inventedCharacterisation.js";

const COLUMNS = 80;
const LINES = 25;

const toners = horseboxToners();
const example = horseboxJob();

/** As one line, since sentences are broken to the width of a screen. */
const flat = (text: string) => text.replace(/\s+/g, " ");

function expectOneScreen(text: string): void {
  const lines = text.split("\n");
  expect(lines.pop()).toBe("");
  expect(lines.length, text).toBeLessThanOrEqual(LINES);
  for (const line of lines) expect([...line].length, line).toBeLessThanOrEqual(COLUMNS);
  expect(text).not.toMatch(/\n\n\n|log10|odds|misfit|stopped with cost|undefined|NaN|Infinity|null/);
}

/** What "8 cases of 10", "97 cases of 100" and the like say, as an interval. */
function chanceSaid(text: string): readonly [low: number, high: number] {
  const [, more, count, of] = /^(more than |fewer than )?(\d+) cases? of (10+)/.exec(text) ?? [];
  const [all, told] = [Number(of), Number(count)];
  if (more === "more than ") return [0.99, 1];
  if (more === "fewer than ") return [0, 0.01];
  return [(told - 0.5) / all, (told + 0.5) / all];
}

function expectChance(text: string, before: string, probability: number): void {
  const at = text.indexOf(before);
  expect(at, `"${before}" in ${text}`).toBeGreaterThanOrEqual(0);
  const [low, high] = chanceSaid(text.slice(at + before.length));
  expect(probability).toBeGreaterThanOrEqual(low - 1e-9);
  expect(probability).toBeLessThanOrEqual(high + 1e-9);
}

const HEADS: Readonly<Record<Correction["status"], RegExp>> = {
  corrected: /^Not there yet: /,
  "good-enough": /^(Good enough: |Within tolerance by this card)/,
  "out-of-reach": /^Out of reach by adding to this pot: /,
  "by-eye": /^By eye, so nothing is promised: /,
  respray: /^Not there yet: .* The flakes lie (flatter|steeper) on the panel by \d+ %/,
  "other-flake": /^Pour nothing. Another grade of flake/,
  undetermined: /^(Stop: this card was not sprayed|Undetermined: ).*Nothing was worked out/,
};

/** No sentence against another, and none against the record. */
function expectAgreement(correction: Correction, next: NextStep, text: string): void {
  const said = flat(text);
  const { status, predictions, expected } = correction;
  expect(said).toMatch(HEADS[status]);
  const worst = predictions.reduce((most, one) =>
    one.deltaE00Before / one.deltaE00Allowed > most.deltaE00Before / most.deltaE00Allowed ? one : most,
  );
  if (status !== "undetermined") {
    const [, off, allowed] = /: [^:]*? ([\d.]+) off.*?; ([\d.]+|any)/.exec(said) ?? [];
    expect(Number(off)).toBeCloseTo(worst.deltaE00Before, 0);
    if (allowed !== "any") {
      expect(Number(off) <= Number(allowed)).toBe(worst.deltaE00Before <= worst.deltaE00Allowed);
    }
  }

  const poured = Object.entries(next.grams ?? {}).filter(([, grams]) => grams > 0);
  const rows = [
    ...text.matchAll(/^ {2}(\d+) {2}(.+?) {2,}(?:\d+ drops?, )?([\d.]+) {2,}([\d.]+)(?: {2}.*)?$/gm),
  ];
  const isPouring = ["pour", "pour-off", "new-pot"].includes(next.step);
  if (!isPouring) expect(rows).toEqual([]);
  else if (rows.length > 0) {
    expect(rows.map(([, , , grams]) => Number(grams)).sort((a, b) => a - b)).toEqual(
      poured.map(([, grams]) => Number(grams.toFixed(3))).sort((a, b) => a - b),
    );
  }

  expect(/\bStart a new pot\b/.test(said)).toBe(next.step === "new-pot");
  expect(/\bPour off\b/.test(said)).toBe(next.step === "pour-off");
  expect(/\bPour nothing\b/.test(said)).toBe(["re-measure", "compare"].includes(next.step));
  expect(/\bHold .* beside .* under\b/.test(said)).toBe(next.step === "compare");
  expect(/(^|\. )Paint(\.|:| and blend)/.test(said)).toBe(["good-enough", "blend"].includes(next.step));
  expect(/stir, spray a card/.test(said)).toBe(isPouring);
  expect(/isocyanates/.test(said)).toBe(!["re-measure", "compare"].includes(next.step));
  expect(/Proved|Not proved/.test(said)).toBe(status === "out-of-reach");

  if (status === "good-enough" && next.withinNow !== null) expectChance(said, "true in ", next.withinNow);
  const chosen = next.choices.find(({ step, pour }) => step === next.step && pour === next.pour);
  if (next.step === "pour" && chosen?.chances) {
    expectChance(said, "within tolerance in ", chosen.chances.withinProbability);
    expectChance(said, "put right by adding in ", 1 - chosen.chances.noReturnProbability);
  } else expect(said).not.toContain("next card within tolerance in");
  if (next.pour === "full" && status !== "good-enough" && expected) {
    expectChance(said, "within tolerance in ", expected.withinProbability);
  }
}

describe("other answers on one screen", () => {
  const long = Object.fromEntries(toners.toners.map(({ id }, i) => [id, `${i}${"x".repeat(98)}`]));
  const displays = [{ unit: "g" }, { unit: "oz" }, { unit: "drops", gramsPerDrop: { white: 0.02 } }] as const;

  it("a plan, whether its formula explains the panels or not", () => {
    const job = horseboxPlan();
    for (const plan of [planHoldBack(job), planHoldBack({ ...job, formula: "sage green, later years" })]) {
      for (const display of displays) expectOneScreen(holdBackText(plan, long, display));
      const [pot] = plan.pots;
      const pourNow = Array.from({ length: 4 }, () => pot.pourNow).flat();
      const warnings = Array.from({ length: 9 }, (_, i) => ({
        code: "stock-short" as const,
        message: `${i} ${"is short ".repeat(30)}`,
      }));
      expectOneScreen(holdBackText({ ...plan, warnings, pots: [{ ...pot, pourNow }, pot] }, long));
    }
  });

  it("what was learnt, with cards that are not believed", () => {
    const { entries } = readRecord(horseboxRecord());
    const { cards } = jobState(entries);
    const learning = learnStrengths({ toners, pots: [{ name: "pot", cards }] });
    for (const display of displays) expectOneScreen(learningText(learning, long, display));
    const many = { ...learning, cards: Array.from({ length: 8 }, () => learning.cards).flat() };
    expectOneScreen(learningText(many, long));
  });

  it("the state of a job, with more noted than there is room for", () => {
    const { entries } = readRecord(horseboxRecord());
    const noted = { number: 99, at: "", entry: { kind: "note", text: "stirred\n".repeat(40) } } as const;
    for (const display of displays) {
      const told = { names: long, remarks: ["odd ".repeat(90)], added: [...entries, noted], display };
      for (let count = 1; count <= entries.length; count++) {
        expectOneScreen(jobStateText(jobState(entries.slice(0, count)), told));
      }
      const pot = Object.fromEntries(toners.toners.map(({ id }) => [id, 100 / 3]));
      expectOneScreen(jobStateText({ ...jobState(entries), pot }, told));
    }
  });

  it("a characterisation, with more to say than there is room for", () => {
    expectOneScreen(characterisationText(invented));
    const { nextMeasurements, samples } = invented;
    expectOneScreen(
      characterisationText({
        ...invented,
        nextMeasurements: Array.from({ length: 40 }, () => nextMeasurements[0]),
        samples: samples.map((one) => ({ ...one, outlier: "was it stirred? ".repeat(20) })),
      }),
    );
  });
});

const statuses = new Set<string>();
const steps = new Set<string>();

/** What a screen shows none of, or none the better for, is left out where there are hundreds of jobs. */
const QUICK = { alternatives: false, forecast: { drawsOfReturn: 20 } };

function answerTo(job: Job, options: CorrectOptions = { forecast: true }) {
  const correction = correct(job, options);
  const nextStep = adviseNextStep(job, correction);
  statuses.add(correction.status);
  steps.add(nextStep.step);
  const certificate = correction.status === "out-of-reach" ? certify(job, correction) : undefined;
  return { correction, nextStep, ...(certificate && { certificate }) };
}

describe("a correction on one screen", () => {
  it.each(Object.entries(JOBS))("%s", (_, job) => {
    const { correction, ...told } = answerTo(job);
    const text = correctionText(correction, tonerNames(job.toners), told);
    expectOneScreen(text);
    expectAgreement(correction, told.nextStep, text);
    for (const unit of ["oz", "drops"] as const) {
      const display = { unit, gramsPerDrop: job.limits?.gramsPerDrop ?? {} };
      expectOneScreen(correctionText(correction, tonerNames(job.toners), { ...told, display }));
    }
    expectOneScreen(correctionText(correction));
  });

  it.each([
    "matches",
    { lighter: 2, redder: 0, yellower: 1 },
    { lighter: -4, redder: 0, yellower: 0 },
  ] as const)("by eye, where the panel looks %j", (targetIs) => {
    const { card: _, ...rest } = example;
    const seen = { card: "first card", illuminant: "D65", scale: "iso-3668", targetIs } as const;
    const cards = [{ name: "first card", readings: [] }];
    const targets = [{ name: "door", readings: [], comparisons: [seen] }];
    const { correction, ...told } = answerTo({ ...rest, cards, targets });
    const text = correctionText(correction, tonerNames(example.toners), told);
    expect(correction.status).toBe("by-eye");
    expectOneScreen(text);
    expectAgreement(correction, told.nextStep, text);
    expectOneScreen(correctionText(correction));
    expectOneScreen(
      correctionText(correction, {}, { certificate: certify({ ...rest, cards, targets }, correction) }),
    );
  });

  it("with names as long as they may be, and a warning for everything", () => {
    const long = Object.fromEntries(toners.toners.map(({ id }, i) => [id, `${i}${"x".repeat(98)}`]));
    for (const limits of [{}, { maxPours: 40, pourWorthDeltaE00: 0 }, { maxPours: 1 }]) {
      const { correction, ...told } = answerTo({ ...example, limits });
      const warnings = Array.from({ length: 9 }, (_, i) => ({
        code: "work-limit" as const,
        message: `${i}: ${"what was cut off ".repeat(20)}`,
      }));
      expectOneScreen(correctionText({ ...correction, warnings }, long, told));
    }
  });

  it("for a card that cannot come from its pot says what would fit, and works nothing out", () => {
    const job: Job = { ...example, pot: { ...example.pot, green: 90 } };
    const { correction, ...told } = answerTo(job);
    expect(correction.stopReason).toBe("card-not-from-pot");
    const names = tonerNames(job.toners);
    const text = correctionText(correction, names, told);
    expectOneScreen(text);
    expectAgreement(correction, told.nextStep, text);
    expect(flat(text)).toMatch(/1 as if .* Bluish green had been poured, not 90\.0 g/);
    expect(correctionDetails(correction, names, told)).not.toMatch(/predicted/);
  });

  it.each(Array.from({ length: 10 }, (_, i) => i))("thirty random jobs from seed %d00", (hundreds) => {
    for (let i = 0; i < 30; i++) {
      const { job } = randomJob(toners, 1 + 100 * hundreds + i);
      const rounded = { ...job, limits: { ...job.limits, scaleStepGrams: 0.1, maxPours: 1 + (i % 6) } };
      const { correction, ...told } = answerTo(rounded, QUICK);
      const text = correctionText(correction, tonerNames(job.toners), told);
      expectOneScreen(text);
      expectAgreement(correction, told.nextStep, text);
    }
  });

  it("was looked at for every status and every step", () => {
    expect(statuses.size).toBe(5);
    expect([...steps].sort()).toEqual([
      "blend",
      "compare",
      "good-enough",
      "new-pot",
      "pour",
      "pour-off",
      "re-measure",
    ]);
  });
});
