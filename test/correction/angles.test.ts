import { describe, expect, it } from "vitest";
import { ciede2000 } from "../../src/colorimetry/ciede2000.js";
import { correct } from "../../src/correction/correct.js";
import { predict } from "../../src/prediction/predict.js";
import type { Job } from "../../src/problem/job.js";
import { readingsLying, THREE_ANGLES, withOrientation } from "../fixtures/threeAngles.js";
import { refusal } from "../support/refusal.js";
import { between } from "./contract/jobs.js";

const job = between(
  THREE_ANGLES,
  { silver: 90, black: 4, blue: 6 },
  { silver: 90, black: 4, blue: 8 },
) as Job & Required<Pick<Job, "card">>;
const [face] = job.card.readings;
const at = (readings: Job["targets"][number]["readings"], ...angles: readonly string[]) =>
  readings.filter(({ geometry }) => angles.includes(geometry));
const [target] = job.targets;
const anglesOf = (answer: ReturnType<typeof correct>) => [
  ...new Set(answer.predictions.map(({ geometry }) => geometry)),
];
const leftOut = (answer: ReturnType<typeof correct>) =>
  answer.warnings.filter(({ code }) => code === "angle-left-out").map(({ path }) => path);

it("a panel's reading at an angle that the card lacks says nothing, also where its colour or an eye's word counts", () => {
  const pot = { silver: 80, black: 10, blue: 10 };
  const other = { ...pot, blue: 13 };
  const seen = readingsLying(other, 0);
  const job = (readings: typeof seen): Job => ({
    toners: THREE_ANGLES,
    viewing: { observer: "1964-10", illuminants: [{ name: "D65" }] },
    pot,
    cards: [{ name: "card", pot, readings: readingsLying(pot, 0).slice(1) }],
    targets: [
      {
        name: "door",
        readings,
        comparisons: [{ card: "card", illuminant: "D65", scale: "iso-3668", targetIs: { lighter: -1 } }],
      },
    ],
  });
  const [all, shared] = [seen, seen.slice(1)].map((readings) => correct(job(readings)));
  expect(all.additions).toEqual(shared.additions);
  expect(all.additions.map(({ toner }) => toner)).toContain("blue");
});

describe("a bright face", () => {
  it("is read where the geometry has a brightness, and refused by none", () => {
    expect(Math.max(...Array.from(face.reflectance))).toBeGreaterThan(1);
    const answer = correct(job);
    expect(answer.status).toBe("corrected");
    expect(answer.additions.map(({ toner }) => toner)).toEqual(["blue"]);
    expect(answer.additions[0].grams).toBeCloseTo(2, 0);
    expect(leftOut(answer)).toEqual([]);
  });

  it("is left out with a warning where nothing says how bright it may be; the other angles answer", () => {
    const surfaces = THREE_ANGLES.surfaces.map(({ brightness: _, ...surface }) => surface);
    const answer = correct({ ...job, toners: { ...THREE_ANGLES, surfaces } });
    expect(answer.status).toBe("corrected");
    expect(anglesOf(answer)).toEqual(["45as45", "45as110"]);
    expect(leftOut(answer)).toEqual([`targets[0].readings`]);
  });

  it("alone cannot carry an answer", () => {
    const surfaces = THREE_ANGLES.surfaces.map(({ brightness: _, ...surface }) => surface);
    const toFace = { ...target, readings: at(target.readings, "45as15") };
    const answer = correct({ ...job, toners: { ...THREE_ANGLES, surfaces }, targets: [toFace] });
    expect([answer.status, answer.stopReason]).toEqual(["undetermined", "readings-censored"]);
  });
});

describe("angles of their own", () => {
  const withAngles = (angles: NonNullable<typeof target.angles>) =>
    correct({ ...job, targets: [{ ...target, angles }] });
  const allowedAt = (answer: ReturnType<typeof correct>, angle: string) =>
    answer.predictions.find(({ geometry }) => geometry === angle)?.deltaE00Allowed;

  it("allow what they say, the others what the role says", () => {
    const answer = withAngles({ "45as15": { deltaE00: 1.2 } });
    const plain = correct(job);
    expect(allowedAt(answer, "45as15")).toBeCloseTo(2.4 * (allowedAt(plain, "45as15") ?? 0), 12);
    expect(allowedAt(answer, "45as45")).toBe(allowedAt(plain, "45as45"));
  });

  it("weigh by the inverse square of what they allow, unless told otherwise", () => {
    // One angle is off by what no toner repairs; the answer leans to the angle that weighs more.
    const odd = target.readings.map((reading) => ({
      ...reading,
      reflectance: Array.from(reading.reflectance, (r) => r * (reading.geometry === "45as15" ? 1.06 : 1)),
    }));
    const left = (angles: NonNullable<typeof target.angles>) =>
      correct({ ...job, targets: [{ ...target, readings: odd, angles }] }).predictions.find(
        ({ geometry }) => geometry === "45as15",
      )?.deltaE00After ?? Number.NaN;
    const alike = left({});
    expect(left({ "45as15": { weight: 50 } })).toBeLessThan(alike);
    expect(left({ "45as15": { deltaE00: 0.1 } })).toBeLessThan(alike);
    expect(left({ "45as15": { deltaE00: 3 } })).toBeGreaterThanOrEqual(alike);
  });

  it("that all count alike change nothing", () => {
    expect(withAngles({}).additions).toEqual(correct(job).additions);
  });

  it("allow what spraying does besides, of flake whose orientation is known; what a target says stands", () => {
    const lying = { ...job, toners: withOrientation() };
    // √(0.5² + 0.61²) and √(0.5² + 0.18²): the default of an edge, and what spraying does at these angles.
    expect(allowedAt(correct(lying), "45as15")).toBeCloseTo(0.7887, 3);
    expect(allowedAt(correct(lying), "45as110")).toBeCloseTo(0.5314, 3);
    const own = { ...target, angles: { "45as15": { deltaE00: 1.2 }, "45as110": { weight: 3 } } };
    const answer = correct({ ...lying, targets: [own] });
    expect(allowedAt(answer, "45as15")).toBeCloseTo(1.2, 12);
    expect(allowedAt(answer, "45as110")).toBeCloseTo(0.5314, 3);
    expect(allowedAt(correct(job), "45as15")).toBe(0.5);
  });

  it("are refused where nothing is measured, or allowed nothing", () => {
    const act = (angles: object) => () => correct({ ...job, targets: [{ ...target, angles }] });
    expect(refusal(act({ "45as20": {} })).code).toBe("unknown-geometry");
    expect(refusal(act({ "45as15": { deltaE00: 0 } })).path).toBe("targets[0].angles.45as15.deltaE00");
  });
});

describe("fewer angles", () => {
  it("on the card than on the target: said, and answered at those that both have", () => {
    const card = { readings: at(job.card.readings, "45as15", "45as45") };
    const answer = correct({ ...job, card });
    expect(anglesOf(answer)).toEqual(["45as15", "45as45"]);
    const { toners, viewing, pot } = job;
    const alone = predict({ toners, viewing, pot }).predictions.find(
      ({ geometry }) => geometry === "45as110",
    );
    const aim = correct(job).predictions.find(({ geometry }) => geometry === "45as110");
    const off = ciede2000(aim?.labTarget ?? [0, 0, 0], alone?.lab ?? [0, 0, 0]);
    expect(answer.warnings.find(({ code }) => code === "angle-left-out")).toMatchObject({
      path: "card.readings",
      message: expect.stringContaining(`by the toners alone the pot is ΔE00 ${off.toFixed(1)} off there`),
    });
  });

  it("on an earlier card: it is passed over with a warning", () => {
    const { card, ...rest } = job;
    const early = { name: "first", pot: job.pot, readings: at(card.readings, "45as15") };
    const answer = correct({ ...rest, cards: [early, card] });
    expect(answer.additions).toEqual(correct(job).additions);
    expect(leftOut(answer)).toEqual(["cards[0].readings"]);
  });

  it("on the target than on the card: nothing to say", () => {
    const few = { ...target, readings: at(target.readings, "45as45") };
    const answer = correct({ ...job, targets: [few] });
    expect([anglesOf(answer), leftOut(answer)]).toEqual([["45as45"], []]);
  });

  it("in common, none: refused", () => {
    const few = { ...target, readings: at(target.readings, "45as45") };
    const act = () => correct({ ...job, card: { readings: [face] }, targets: [few] });
    expect(refusal(act)).toEqual({ code: "unknown-geometry", path: "card.readings" });
  });
});
