import { describe, expect, it } from "vitest";
import { correct } from "../../src/correction/correct.js";
import type { Job } from "../../src/problem/job.js";
import { horseboxJob, type OneCardJob } from "../fixtures/horsebox.js";

const job = horseboxJob();
const withReflectance = (change: (r: number, band: number) => number): Job["targets"] =>
  job.targets.map((target) => ({
    ...target,
    readings: target.readings.map((reading) => ({
      ...reading,
      reflectance: Array.from(reading.reflectance, change),
    })),
  }));

describe("correct, on the shipped example", () => {
  it("brings both panels within tolerance with at most four pours", () => {
    const { status, additions, predictions, obstacles } = correct(job);
    expect(status).toBe("corrected");
    expect(additions.length).toBeGreaterThan(0);
    expect(additions.length).toBeLessThanOrEqual(4);
    expect(predictions.map(({ target }) => target)).toEqual([
      "near-side door",
      "near-side door",
      "tail ramp",
      "tail ramp",
    ]);
    expect(obstacles).toEqual([]);
  });

  it("says good-enough and adds nothing when the card already matches", () => {
    const { status, additions, potAfter } = correct({
      ...job,
      targets: [{ name: "card again", readings: job.card.readings }],
    });
    expect(status).toBe("good-enough");
    expect(additions).toEqual([]);
    expect(potAfter).toEqual(job.pot);
  });

  it("says out-of-reach, and what is too much in the pot, when the panel is far lighter than the cup can get", () => {
    const { status, obstacles } = correct({
      ...job,
      targets: withReflectance((r) => Math.min(0.95, r * 1.6)),
    });
    expect(status).toBe("out-of-reach");
    expect(obstacles.map(({ kind }) => kind)).toContain("too-much-in-pot");
    expect(obstacles.map(({ kind }) => kind)).toContain("room");
  });

  it("says out-of-reach for want of toners when no mix of them makes the colour", () => {
    const { status, obstacles } = correct({
      ...job,
      targets: withReflectance((_, band) => (band < 19 ? 0.02 : 0.9)),
      limits: { maxPours: 12 },
    });
    expect(status).toBe("out-of-reach");
    expect(obstacles.map(({ kind }) => kind)).toContain("toners");
  });

  it("names the stock when it is what runs out", () => {
    const stockGrams = Object.fromEntries(job.toners.toners.map(({ id }) => [id, 0]));
    const none = correct({ ...job, limits: { stockGrams } });
    expect(none.status).toBe("out-of-reach");
    expect(none.additions).toEqual([]);
    expect(none.stopReason).toBe("nothing-to-add");
    expect(none.obstacles.map(({ kind }) => kind)).toContain("stock");
  });

  it("names the number of pours and the scale step when they are what stands in the way", () => {
    const one = correct({ ...job, limits: { maxPours: 1 } });
    expect(one.obstacles).toEqual([{ kind: "pours" }]);
    const coarse = correct({ ...job, limits: { scaleStepGrams: 50, potMaxGrams: 400 } });
    expect(coarse.obstacles).toEqual([{ kind: "scale-step" }]);
  });

  it("says undetermined when the card is darker than its own surface allows in most bands", () => {
    const included = {
      ...job.toners,
      surfaces: [{ geometry: "d:8 specular included" as const, k1: 0.04, k2: 0.6 }],
    };
    const moved = included.toners.map((toner) => ({
      ...toner,
      k: { "d:8 specular included": toner.k["d:8 specular excluded"] ?? [] },
      s: { "d:8 specular included": toner.s["d:8 specular excluded"] ?? [] },
    }));
    const dark = (value: number) => ({
      geometry: "d:8 specular included" as const,
      grid: job.toners.grid,
      reflectance: new Array(31).fill(value),
    });
    const { status, stopReason, additions, warnings } = correct({
      ...job,
      toners: { ...included, toners: moved },
      card: { readings: [dark(0.0395)] },
      targets: [{ name: "panel", readings: [dark(0.3)] }],
    });
    expect(status).toBe("undetermined");
    expect(stopReason).toBe("readings-censored");
    expect(additions).toEqual([]);
    expect(warnings.map(({ code }) => code)).toContain("censored-bands");
  });
});

describe("warnings", () => {
  const codes = (one: Job) => correct(one).warnings.map(({ code }) => code);

  it("tell of readings on another grid, of a narrow range and of a pot over its limit", () => {
    const every20 = (reading: OneCardJob["card"]["readings"][number]) => ({
      ...reading,
      grid: { start: 400, step: 20, count: 16 },
      reflectance: Array.from(reading.reflectance).filter((_, i) => i % 2 === 0),
    });
    expect(codes({ ...job, card: { readings: job.card.readings.map(every20) } })).toContain("resampled");
    const from420 = (reading: OneCardJob["card"]["readings"][number]) => ({
      ...reading,
      grid: { start: 420, step: 10, count: 29 },
      reflectance: Array.from(reading.reflectance).slice(2),
    });
    expect(codes({ ...job, card: { readings: job.card.readings.map(from420) } })).toContain("narrow-range");
    expect(codes({ ...job, limits: { potMaxGrams: 100 } })).toContain("pot-over-limit");
    expect(codes(job)).not.toContain("resampled");
  });

  it("tell of toners that do the same and of lost hiding", () => {
    expect(codes(job)).toContain("collinear-toners");
    const clearOnly = Object.fromEntries(job.toners.toners.map(({ id }) => [id, id === "clear" ? 1000 : 0]));
    const diluted = correct({
      ...job,
      targets: withReflectance((r) => r * 0.9),
      limits: { stockGrams: { ...clearOnly, black: 100 }, maxPours: 6 },
    });
    expect(diluted.hidingThicknessRatio).toBeLessThan(1.1);
  });
});
