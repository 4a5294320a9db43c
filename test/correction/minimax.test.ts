import { describe, expect, it } from "vitest";
import { correct } from "../../src/correction/correct.js";
import type { Correction } from "../../src/correction/correction.js";
import type { Job } from "../../src/problem/job.js";
import { horseboxJob } from "../fixtures/horsebox.js";

const example = horseboxJob();

/** Two panels that no mix matches both: one lighter than the other by these factors, at two ends of the spectrum. */
const conflicting = (low: number, high: number): Job => ({
  ...example,
  targets: [low, high].map((factor, i) => ({
    ...example.targets[0],
    name: `panel ${i}`,
    weight: i === 0 ? 1 : 0.2,
    readings: example.targets[0].readings.map((reading) => ({
      ...reading,
      reflectance: Array.from(reading.reflectance, (r, b) => (b < 16 ? r * factor : r)),
    })),
  })),
  limits: { pourWorthDeltaE00: 0 },
});

const shares = ({ predictions }: Correction) => predictions.map((p) => p.deltaE00After / p.deltaE00Allowed);
const worst = (correction: Correction) => Math.max(...shares(correction));

/** The spectral tie-break may cost this much of the worst, as a share of what is allowed. */
const TIE_BREAK = 0.02;

describe("the worst made small", () => {
  it.each([
    [0.9, 1],
    [0.93, 1.02],
    [0.97, 0.99],
    [0.85, 1.05],
  ])("leaves two edges apart by %d and %d no worse than least squares does, and each alike", (low, high) => {
    const job = conflicting(low, high);
    const bySquares = correct(job, { wayOut: false });
    const byWorst = correct({ ...job, objective: "minimax" }, { wayOut: false });
    expect(byWorst.objective).toBe("minimax");
    expect(worst(byWorst)).toBeLessThanOrEqual(worst(bySquares) + TIE_BREAK);
    // Unequal weights draw least squares to one of the two; the worst knows no weights.
    if (bySquares.status !== "out-of-reach") return;
    expect(worst(byWorst)).toBeLessThan(0.9 * worst(bySquares));
    const ofPanel = (name: string) =>
      Math.max(
        ...byWorst.predictions
          .filter(({ target }) => target === name)
          .map((p) => p.deltaE00After / p.deltaE00Allowed),
      );
    expect(ofPanel("panel 1") / ofPanel("panel 0")).toBeCloseTo(1, 1);
  });

  it("does not look at a blend that is within what it is allowed", () => {
    const { targets, ...rest } = conflicting(0.97, 0.99);
    const [edge, other] = targets;
    const job = { ...rest, objective: "minimax", tolerance: { blendDeltaE00: 3 } } as const;
    const both = correct({ ...job, targets: [edge, { ...other, role: "blend" }] });
    const alone = correct({ ...job, targets: [edge] });
    const ofEdge = ({ predictions }: Correction) =>
      Math.max(...predictions.filter((p) => p.target === edge.name).map((p) => p.deltaE00After));
    expect(Math.abs(ofEdge(both) - ofEdge(alone))).toBeLessThan(TIE_BREAK);
    expect(both.status).toBe("corrected");
  });
});
