import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { createWork } from "../../src/core/createWork.js";
import { correct } from "../../src/correction/correct.js";
import { checkJob, type Job } from "../../src/problem/job.js";
import { prepareProblem } from "../../src/problem/problem.js";
import { MOST_NODES } from "../../src/search/createSearch.js";
import { findMix } from "../../src/search/findMix.js";
import { horseboxJob } from "../fixtures/horsebox.js";
import { refusal } from "../support/refusal.js";

/** Invented toners, a scale of 0.1 mg, a cup of a ton; one toner has no effect where the search begins. */
const fineScaleVastCup: Job = JSON.parse(
  readFileSync(new URL("../fixtures/fineScaleVastCup.json", import.meta.url), "utf8"),
);
const codes = ({ warnings }: ReturnType<typeof correct>) => warnings.map(({ code }) => code);

/** Steps of work of the search alone. */
function workOf(job: Job, most: number): number {
  const work = createWork(most);
  findMix(prepareProblem(checkJob(job), work).problem);
  return work.done();
}

describe("the work of a correction", () => {
  it("ends on the finest scale in the vastest cup", () => {
    expect(workOf(fineScaleVastCup, Number.POSITIVE_INFINITY)).toBeLessThan(3e7);
    const answer = correct(fineScaleVastCup, { forecast: true });
    expect(answer.status).toBe("corrected");
    expect(codes(answer)).not.toContain("work-limit");
    expect(answer.search.latticePoints).toBeLessThan(4 * MOST_NODES);
  });

  it("is counted, and the same every time", () => {
    const job = horseboxJob();
    const once = workOf(job, Number.POSITIVE_INFINITY);
    expect(once).toBeGreaterThan(1e5);
    expect(once).toBeLessThan(1e8);
    expect(workOf(job, Number.POSITIVE_INFINITY)).toBe(once);
  });

  it.each([0, 1e4, 1e5, 1e6, 3e6])(
    "goes little beyond %d steps, and what that cut off is said",
    (maxWork) => {
      const job = horseboxJob();
      // What is under way ends: a refinement's step, a subset's mix.
      expect(workOf(job, maxWork)).toBeLessThan(maxWork + 1e6);
      const answer = correct(job, { maxWork, forecast: true });
      expect(codes(answer)).toContain("work-limit");
      expect(correct(job, { maxWork, forecast: true })).toEqual(answer);
      const { gapDeltaE00 } = answer.search;
      const full = correct(job);
      if (gapDeltaE00 !== null && answer.objective === full.objective && answer.chosenBy && full.chosenBy) {
        const best = Math.min(...full.byPours.map(({ weightedDeltaE00 }) => weightedDeltaE00));
        const ours = Math.min(
          answer.weightedDeltaE00.before,
          ...answer.byPours.map(({ weightedDeltaE00 }) => weightedDeltaE00),
        );
        expect(ours - best).toBeLessThan(gapDeltaE00 + 0.01);
      }
    },
  );

  it.each([0, 1e4, 3e4, 1e5, 3e5, 1e6])(
    "of %d steps never makes a sound card look faulty, and says where it did not suffice to tell",
    (maxWork) => {
      const { status, stopReason, card, warnings } = correct(horseboxJob(), { maxWork });
      expect(card.verdict).not.toBe("doubted");
      if (card.verdict === "believed") return;
      expect([status, stopReason]).toEqual(["undetermined", "stopped"]);
      expect(
        warnings.filter(({ code }) => code === "work-limit").map(({ message }) => message),
      ).toContainEqual(expect.stringContaining("what cards and panels say"));
    },
  );

  it("counts cards and panels too: each fault that is tried", () => {
    const job = horseboxJob();
    const [largest] = Object.entries(job.pot).sort(([, a], [, b]) => b - a);
    const slipped = { ...job, pot: { ...job.pot, [largest[0]]: 10 * largest[1] } };
    const done = (one: Job) => {
      const work = createWork(Number.POSITIVE_INFINITY);
      const { judgement } = prepareProblem(checkJob(one), work);
      return { steps: work.done(), verdict: judgement.verdict };
    };
    const sound = done(job);
    const faulty = done(slipped);
    expect(sound.verdict).toBe("believed");
    expect(faulty.verdict).toBe("doubted");
    expect(sound.steps).toBeGreaterThan(1e5);
    expect(faulty.steps).toBeGreaterThan(3 * sound.steps);
    expect(done(slipped)).toEqual(faulty);
  });

  it("ends soon after the host asks it to", () => {
    let asked = 0;
    const answer = correct(horseboxJob(), { forecast: true, shouldStop: () => ++asked > 2 });
    expect(asked).toBe(3);
    expect(codes(answer)).toContain("work-limit");
    expect(codes(correct(horseboxJob(), { shouldStop: () => false }))).not.toContain("work-limit");
  });

  it("accepts only a number of steps that makes sense", () => {
    expect(refusal(() => correct(horseboxJob(), { maxWork: Number.NaN }))).toMatchObject({
      code: "not-finite",
      path: "options.maxWork",
    });
  });
});

describe("a job too large to be served in a moment", () => {
  const job = horseboxJob();
  const [target] = job.targets;
  const targets = (count: number) =>
    Array.from({ length: count }, (_, i) => ({ ...target, name: `panel ${i}` }));

  it("is refused with the limit that it breaks", () => {
    const illuminants = ["D65", "A", "F11", "F2", "F7", "D50", "D55"].map((name) => ({
      name,
    }));
    const many = { ...job, targets: targets(100), viewing: { ...job.viewing, illuminants } };
    expect(refusal(() => checkJob(many))).toEqual({ code: "too-large", path: "targets" });
    expect(() => checkJob(many)).toThrow("700 colours to match: at most 600");
    const { geometry } = target.readings?.[0] ?? { geometry: "d:8 specular excluded" };
    const seen = { geometry, illuminant: "D65", observer: "1964-10", lab: [50, 0, 0] } as const;
    const told = { ...job, targets: targets(90).map((one) => ({ ...one, colours: [seen] })) };
    expect(refusal(() => checkJob(told))).toEqual({ code: "too-large", path: "targets" });
    expect(() => checkJob(told)).toThrow(/ numbers were seen of the targets .*: at most 1000/);
    const toners = {
      ...job.toners,
      toners: Array.from({ length: 500 }, (_, i) => ({ ...job.toners.toners[i % 3], id: `${i}` })),
    };
    const wide = { ...job, toners, pot: { "0": 100 }, limits: {}, targets: targets(40) };
    expect(refusal(() => checkJob(wide))).toEqual({ code: "too-large", path: "toners" });
    expect(() => checkJob(wide)).toThrow(
      /500 toners × 40 readings × \d+ bands are \d+ numbers: at most 500000/,
    );
  });
});
