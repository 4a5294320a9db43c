import Ajv from "ajv/dist/2020.js";
import { expect } from "vitest";
import correctionSchema from "../../../docs/schemas/correction.json";
import { ciede2000 } from "../../../src/colorimetry/ciede2000.js";
import { correct } from "../../../src/correction/correct.js";
import type { Correction, Pour } from "../../../src/correction/correction.js";
import { createEvaluation, evaluate } from "../../../src/forward/evaluate.js";
import { checkJob, type Job } from "../../../src/problem/job.js";
import { prepareProblem } from "../../../src/problem/problem.js";
import { type Grams, gramsInOrder } from "../../../src/toners/pot.js";

type Promised = (job: Job, correction: Correction) => void;

const isCorrection = new Ajv({ strict: true, allowUnionTypes: true }).compile(correctionSchema);
const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
const potGrams = ({ pot }: Job) => sum(Object.values(pot));
const LEAN = { alternatives: false, wayOut: false } as const;

const isWhole = (grams: number, step: number) => {
  expect(Math.abs(grams - step * Math.round(grams / step))).toBeLessThan(1e-9 * Math.max(1, grams));
};

/** Differences that the edges show against what they are allowed; blends count beyond theirs. */
const worst = (correction: Correction, job: Job, of: "deltaE00Before" | "deltaE00After") => {
  const isBlend = (name: string) => job.targets.find((target) => target.name === name)?.role === "blend";
  const allBlend = job.targets.every(({ role }) => role === "blend");
  const shares = correction.predictions
    .map((p) => ({ share: p[of] / p.deltaE00Allowed, counts: allBlend || !isBlend(p.target) }))
    .filter(({ share, counts }) => counts || share > 1)
    .map(({ share }) => share);
  return Math.max(0, ...shares);
};

/** What every answer keeps, whatever the job. */
export const PROMISES: Readonly<Record<string, Promised>> = {
  "fits its schema"(_, correction) {
    expect(isCorrection(JSON.parse(JSON.stringify(correction))), JSON.stringify(isCorrection.errors)).toBe(
      true,
    );
  },

  "pours whole steps or whole drops, no less than the least pour"({ limits = {} }, { additions }) {
    const { scaleStepGrams = 0.1, minPourGrams = 0, gramsPerDrop = {} } = limits;
    for (const { toner, grams, drops } of additions) {
      expect(grams).toBeGreaterThan(0);
      const drop = gramsPerDrop[toner];
      if (drop !== undefined) {
        isWhole(grams, drop);
        expect(drops).toBe(Math.round(grams / drop));
        continue;
      }
      expect(drops).toBeNull();
      expect(grams).toBeGreaterThanOrEqual(minPourGrams - 1e-9);
      if (scaleStepGrams > 0) isWhole(grams, scaleStepGrams);
    }
  },

  "pours no more than stock, cup and number of pours allow"(job, { additions, potGramsAfter }) {
    const { maxPours = 4, stockGrams = {}, potMaxGrams = 10 * potGrams(job) } = job.limits ?? {};
    expect(additions.length).toBeLessThanOrEqual(maxPours);
    expect(new Set(additions.map(({ toner }) => toner)).size).toBe(additions.length);
    for (const { toner, grams } of additions) {
      expect(grams).toBeLessThanOrEqual((stockGrams[toner] ?? Number.POSITIVE_INFINITY) + 1e-9);
    }
    if (additions.length > 0) expect(potGramsAfter).toBeLessThanOrEqual(potMaxGrams + 1e-9);
  },

  "pot afterwards is pot and additions"(job, { additions, potAfter, potGramsAfter }) {
    const expected: Record<string, number> = { ...job.pot };
    for (const { toner, grams } of additions) expected[toner] = (expected[toner] ?? 0) + grams;
    for (const { id } of job.toners.toners) expect(potAfter[id] ?? 0).toBeCloseTo(expected[id] ?? 0, 9);
    expect(potGramsAfter).toBeCloseTo(sum(Object.values(expected)), 9);
  },

  "predicts what the model tied to the card gives"(job, { predictions, potAfter, additions }) {
    const { model } = prepareProblem(checkJob(job)).problem;
    const { geometries } = model;
    const at = createEvaluation(model);
    const labs = (grams: Grams) => {
      evaluate(model, gramsInOrder(grams, model.set.toners), at);
      return Array.from(at.lab);
    };
    const [atStart, atEnd] = [labs(job.pot), labs(potAfter)];
    for (const p of predictions) {
      const light = job.viewing.illuminants.findIndex(({ name }) => name === p.illuminant);
      const place = 3 * (geometries.indexOf(p.geometry) * job.viewing.illuminants.length + light);
      for (const axis of [0, 1, 2]) {
        expect(p.labBefore[axis]).toBeCloseTo(atStart[place + axis], 8);
        expect(p.labAfter[axis]).toBeCloseTo(atEnd[place + axis], 8);
      }
      expect(p.deltaE00Before).toBeCloseTo(ciede2000(p.labTarget, p.labBefore), 9);
      expect(p.deltaE00After).toBeCloseTo(ciede2000(p.labTarget, p.labAfter), 9);
    }
    const last = additions.at(-1);
    if (last) expect(last.labAfter).toEqual(predictions[0].labAfter);
  },

  "has the status that its predictions and allowances give"(
    _,
    { status, predictions, additions, obstacles },
  ) {
    const before = predictions.every((p) => p.deltaE00Before <= p.deltaE00Allowed);
    const after = predictions.every((p) => p.deltaE00After <= p.deltaE00Allowed);
    if (status === "undetermined") expect(additions).toEqual([]);
    else expect(status).toBe(before ? "good-enough" : after ? "corrected" : "out-of-reach");
    if (status === "good-enough") expect(additions).toEqual([]);
    if (status === "corrected") expect(additions.length).toBeGreaterThan(0);
    expect(obstacles.length > 0).toBe(status === "out-of-reach");
  },

  "is no worse than adding nothing"(job, correction) {
    const { objective, weightedDeltaE00 } = correction;
    if (objective === "least-squares")
      expect(weightedDeltaE00.after).toBeLessThanOrEqual(weightedDeltaE00.before);
    else {
      const ends = worst(correction, job, "deltaE00After");
      expect(ends).toBeLessThanOrEqual(worst(correction, job, "deltaE00Before"));
    }
  },

  "says of each toner either that it is poured or why not"(job, { status, additions, unused }) {
    if (status === "good-enough" || status === "undetermined") return;
    const said = [...additions, ...unused].map(({ toner }) => toner).sort();
    expect(said).toEqual(job.toners.toners.map(({ id }) => id).sort());
  },

  "names, of each number of pours, one correction that the limits allow"(job, { byPours }) {
    const { maxPours = 4, stockGrams = {}, potMaxGrams = 10 * potGrams(job) } = job.limits ?? {};
    const pours = byPours.map((one) => one.pours);
    expect(pours).toEqual([...new Set(pours)].sort((a, b) => a - b));
    for (const one of byPours) {
      expect(one.additions.length).toBe(one.pours);
      expect(one.pours).toBeLessThanOrEqual(maxPours);
      expect(one.grams).toBeCloseTo(sum(one.additions.map(({ grams }) => grams)), 9);
      expect(potGrams(job) + one.grams).toBeLessThanOrEqual(potMaxGrams + 1e-9);
      for (const { toner, grams } of one.additions) {
        expect(grams).toBeLessThanOrEqual((stockGrams[toner] ?? Number.POSITIVE_INFINITY) + 1e-9);
      }
    }
  },

  "offers alternatives that differ from the answer, each in its way"(
    _,
    { additions, alternatives, ...rest },
  ) {
    const key = (list: readonly Pour[]) =>
      list
        .map(({ toner, grams }) => `${toner} ${grams}`)
        .sort()
        .join();
    const all = [additions, ...alternatives.map((one) => one.additions)].map(key);
    expect(new Set(all).size).toBe(all.length);
    const grams = sum(additions.map((one) => one.grams));
    for (const { kind, without, ...one } of alternatives) {
      if (kind === "blend") expect(one.additions).toEqual([]);
      if (kind === "fewer-pours") expect(one.pours).toBeLessThan(additions.length);
      if (kind === "closer") {
        expect(one.pours > additions.length || one.grams > grams).toBe(true);
        expect(one.weightedDeltaE00).toBeLessThanOrEqual(rest.weightedDeltaE00.after + 1e-3);
      }
      if (kind === "less-paint") expect(one.grams).toBeLessThan(0.7 * grams);
      if (kind === "other-toners") {
        expect(additions.map(({ toner }) => toner)).toContain(without);
        expect(one.additions.map(({ toner }) => toner)).not.toContain(without);
      } else expect(without).toBeUndefined();
    }
  },

  "gives reasons that the limits bear out"(job, { additions, unused, ties }) {
    const { limits = {} } = job;
    const {
      maxPours = 4,
      stockGrams = {},
      minPourGrams = 0,
      scaleStepGrams = 0.1,
      gramsPerDrop = {},
    } = limits;
    const room = (limits.potMaxGrams ?? 10 * potGrams(job)) - potGrams(job);
    const isPoured = (id: string | undefined) => additions.some(({ toner }) => toner === id);
    for (const { toner, reason, alike, gainDeltaE00 } of unused) {
      const least = gramsPerDrop[toner] ?? Math.max(scaleStepGrams, minPourGrams);
      const stock = stockGrams[toner] ?? Number.POSITIVE_INFINITY;
      const isOut = stock === 0 || stock < least - 1e-9;
      expect(reason === "stock", toner).toBe(isOut);
      if (!isOut) expect(reason === "room", toner).toBe(room <= 0 || room < least - 1e-9);
      expect(alike !== undefined).toBe(reason === "alike");
      if (reason === "alike") expect(isPoured(alike)).toBe(true);
      if (reason === "pours") expect(additions.length).toBe(maxPours);
      if (reason === "scale-step") expect(additions.length).toBeLessThan(maxPours);
      const gains = ["little-gain", "pours", "scale-step"].includes(reason);
      expect(gainDeltaE00 !== undefined).toBe(gains);
      if (reason === "little-gain") expect(gainDeltaE00).toBeLessThan(limits.pourWorthDeltaE00 ?? 0.05);
    }
    for (const { toner, insteadOf } of ties) {
      expect(isPoured(toner)).toBe(true);
      expect(insteadOf.some(isPoured)).toBe(false);
    }
  },

  "depends neither on the order of the toners nor on what else was asked for"(job, correction) {
    const toners = { ...job.toners, toners: [...job.toners.toners].reverse() };
    const other = correct({ ...job, toners }, LEAN);
    expect(other.additions).toEqual(correction.additions);
    expect(other.status).toBe(correction.status);
    expect(other.weightedDeltaE00).toEqual(correction.weightedDeltaE00);
  },
};
