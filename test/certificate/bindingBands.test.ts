import { describe, expect, it } from "vitest";
import { bindingBands } from "../../src/certificate/prover/bindingBands.js";
import { differenceSlope, dualNorm, measured, radius } from "../../src/certificate/prover/measure.js";
import { ciede2000 } from "../../src/colorimetry/ciede2000.js";
import type { Lab } from "../../src/colorimetry/lab.js";
import { createRandom } from "../../src/numeric/probability/random.js";
import { differences, weightedDifference } from "../../src/problem/goal.js";
import { checkJob, type Job } from "../../src/problem/job.js";
import { prepareProblem } from "../../src/problem/problem.js";
import { horseboxJob } from "../fixtures/horsebox.js";

const job = horseboxJob();
const [card] = job.card.readings;
const { grid } = job.toners;
const nm = (band: number) => grid.start + band * grid.step;

/** The card itself as target, but for some bands: at the pot as it stands just these are missed. */
function missing(changes: Readonly<Record<number, number>>, other: Partial<Job> = {}) {
  const reflectance = Array.from(card.reflectance, (r, band) => r * (changes[band] ?? 1));
  const one: Job = {
    ...job,
    viewing: { observer: "1964-10", illuminants: [{ name: "D65" }] },
    targets: [{ name: "door", readings: [{ ...card, reflectance }] }],
    ...other,
  };
  const { problem } = prepareProblem(checkJob(one));
  return bindingBands(problem, new Float64Array(problem.bench.pot.length), ["door"]);
}
const over = (bands: readonly number[], factor: number) =>
  Object.fromEntries(bands.map((band) => [band, factor]));

describe("the bands that stand in the way", () => {
  it("are those that the target has lighter or darker, joined where they touch", () => {
    const green = [14, 15, 16, 17];
    expect(card.grid).toEqual(grid);
    const [lighter, ...rest] = missing(over(green, 1.2));
    expect(rest).toEqual([]);
    expect(lighter).toMatchObject({ target: "door", geometry: card.geometry, mixIs: "too dark" });
    // Not all need be named, but a run of them, and nothing else.
    expect(lighter.from).toBeGreaterThanOrEqual(nm(14));
    expect(lighter.to).toBeLessThanOrEqual(nm(17));
    expect(lighter.to).toBeGreaterThan(lighter.from);
    expect(missing(over(green, 0.8))).toMatchObject([{ mixIs: "too light" }]);
  });

  it("are separate ranges where other bands lie between, or where the sign of the miss changes", () => {
    const apart = missing({ ...over([6, 7], 1.3), ...over([20, 21], 0.75) });
    expect(apart.map(({ mixIs }) => mixIs)).toEqual(["too dark", "too light"]);
    expect(apart[0].from).toBeLessThan(apart[1].from);
    const touching = missing({ ...over([6, 7], 0.75), ...over([8, 9], 1.3) });
    for (const { from, to } of touching) expect(from > nm(7) || to < nm(8)).toBe(true);
  });

  it("are one band alone where one alone is missed", () => {
    expect(missing({ 16: 1.3 })).toMatchObject([{ from: nm(16), to: nm(16), mixIs: "too dark" }]);
  });

  it("name toners in stock that move them the right way, the strongest first, three at most", () => {
    const [dark] = missing(over([14, 15, 16, 17], 1.2));
    const [light] = missing(over([14, 15, 16, 17], 0.8));
    expect(dark.toners.length).toBeGreaterThan(0);
    expect(light.toners.length).toBeGreaterThan(0);
    for (const { toners } of [dark, light]) expect(toners.length).toBeLessThanOrEqual(3);
    expect(dark.toners).not.toContain("black");
    expect(light.toners).toContain("black");
    expect(dark.toners.filter((id) => light.toners.includes(id))).toEqual([]);
    const ids = job.toners.toners.map(({ id }) => id);
    const without = missing(over([14, 15, 16, 17], 0.8), {
      limits: { ...job.limits, stockGrams: { black: 0 } },
    });
    expect(without[0].toners).not.toContain("black");
    const none = missing(over([14, 15, 16, 17], 0.8), {
      limits: { ...job.limits, stockGrams: Object.fromEntries(ids.map((id) => [id, 0])) },
    });
    expect(none[0].toners).toEqual([]);
  });

  it("are those of the target that is missed most, by what it allows", () => {
    const reading = (changes: Readonly<Record<number, number>>) => ({
      ...card,
      reflectance: Array.from(card.reflectance, (r, band) => r * (changes[band] ?? 1)),
    });
    const two: Job = {
      ...job,
      viewing: { observer: "1964-10", illuminants: [{ name: "D65" }] },
      targets: [
        { name: "door", readings: [reading(over([7, 8], 1.3))] },
        { name: "wing", role: "blend", readings: [reading(over([15, 16], 1.3))] },
      ],
      tolerance: { edgeDeltaE00: 1, blendDeltaE00: 100 },
    };
    const { problem } = prepareProblem(checkJob(two));
    const nothing = new Float64Array(problem.bench.pot.length);
    expect(bindingBands(problem, nothing, ["door", "wing"]).map(({ target }) => target)).toEqual(["door"]);
  });
});

describe("the measures that certificates speak of", () => {
  const { problem } = prepareProblem(checkJob(job));
  const { goal } = problem;
  const random = createRandom(2);
  const lab = Float64Array.from(
    { length: 3 * goal.aims.length },
    (_, i) => [50, 0, 0][i % 3] + 5 * random.normal(),
  );

  it("are those of the solver", () => {
    expect(measured("weighted", goal, lab)).toBeCloseTo(weightedDifference(goal, lab), 10);
    const shares = differences(goal, lab).map((d, i) => d / goal.aims[i].allowed);
    expect(measured("worst", goal, lab)).toBeCloseTo(Math.max(...shares), 10);
  });

  it("allow each aim its radius, and a sum over them its dual norm", () => {
    const aims = [
      { weight: 0.7, allowed: 1 },
      { weight: 0.3, allowed: 2 },
    ].map((aim) => ({ ...goal.aims[0], ...aim }));
    expect(radius("weighted", aims[0])).toBeCloseTo(1 / Math.sqrt(0.7), 12);
    expect(radius("worst", aims[1])).toBe(2);
    const h = [3, 4];
    for (const measure of ["weighted", "worst"] as const) {
      let most = 0;
      for (let step = 0; step <= 1000; step++) {
        // Units of the radii: on the circle for the one measure, in the square for the other.
        const angle = (step / 1000) * (Math.PI / 2);
        const u = measure === "weighted" ? [Math.cos(angle), Math.sin(angle)] : [Math.min(1, step / 500), 1];
        most = Math.max(most, h[0] * u[0] + h[1] * u[1]);
      }
      expect(dualNorm(measure, h)).toBeCloseTo(most, 4);
    }
  });

  it("have a slope that is what CIEDE2000 grows by", () => {
    const target: Lab = [60, 20, -30];
    const sample: Lab = [58, 24, -27];
    const { difference, n } = differenceSlope(target, sample);
    expect(difference).toBe(ciede2000(target, sample));
    for (const way of [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
      [1, -2, 0.5],
    ]) {
      const moved = sample.map((value, axis) => value + 1e-3 * way[axis]) as unknown as Lab;
      const grown = (ciede2000(target, moved) - difference) / 1e-3;
      expect(n.reduce((sum, value, axis) => sum + value * way[axis], 0)).toBeCloseTo(grown, 2);
    }
  });
});
