import { describe, expect, it } from "vitest";
import { sdsInPot } from "../../../src/belief/sdsInPot.js";
import { drawColours, halfWidth } from "../../../src/forecast/drawColours.js";
import { firstShare, wholeSteps } from "../../../src/forecast/firstShare.js";
import { FORECAST_DEFAULTS, FORECAST_OPTIONS } from "../../../src/forecast/forecastOptions.js";
import { oncePoured } from "../../../src/forecast/reachable.js";
import { createRandom } from "../../../src/numeric/probability/random.js";
import { checkJob } from "../../../src/problem/job.js";
import { prepareProblem } from "../../../src/problem/problem.js";
import { scatteringShares } from "../../../src/toners/scatteringShares.js";
import { horseboxJob } from "../../fixtures/horsebox.js";

const { problem } = prepareProblem(checkJob(horseboxJob()));
const { model } = problem;
const nothing = new Float64Array(problem.bench.pot.length);

describe("colours drawn", () => {
  const mean = Float64Array.of(50, 10, -5);
  const covariance = Float64Array.of(4, 1, 0, 1, 2, -0.5, 0, -0.5, 1);
  const drawn = drawColours({ mean, covariance }, 20_000, createRandom(3));

  it("lie in pairs on either side of the mean, with the covariance that was asked for", () => {
    expect(drawn.length).toBe(20_000);
    for (let i = 0; i < 200; i += 2)
      for (const axis of [0, 1, 2])
        expect(drawn[i][axis] + drawn[i + 1][axis]).toBeCloseTo(2 * mean[axis], 10);
    for (const p of [0, 1, 2])
      for (const q of [0, 1, 2]) {
        const found =
          drawn.reduce((sum, lab) => sum + (lab[p] - mean[p]) * (lab[q] - mean[q]), 0) / drawn.length;
        // Student's law of 5 degrees of freedom has a fourth moment of 9σ⁴: a variance from 10 000 pairs is good to 3 %.
        expect(Math.abs(found - covariance[3 * p + q])).toBeLessThan(
          0.12 * Math.sqrt(covariance[4 * p] * covariance[4 * q]),
        );
      }
    expect(drawColours({ mean, covariance }, 5, createRandom(3)).length).toBe(6);
  });

  it.each([0.5, 0.9, 0.99])("lie within the half width of %d with that probability", (level) => {
    const away = halfWidth(level);
    const inside = drawn.filter((lab) => Math.abs(lab[0] - mean[0]) <= 2 * away).length / drawn.length;
    expect(Math.abs(inside - level)).toBeLessThan(4 * Math.sqrt((level * (1 - level)) / 10_000));
  });

  it("have a half width that is Student's, brought to variance 1 (published table: t of 5 at 95 % is 2.015)", () => {
    expect(halfWidth(0.9)).toBeCloseTo(2.015 * Math.sqrt(3 / 5), 3);
  });
});

describe("the strength of an addition against the pot", () => {
  const ids = model.set.toners.map(({ id }) => id);
  const [white, green, yellow] = ["white", "green", "yellow"].map((id) => ids.indexOf(id));
  const count = ids.length;
  /** What is believed where the ways to be wrong are these, each by one standard deviation. */
  const wrongBy = (...modes: readonly Float64Array[]) => ({
    logStrength: nothing,
    covariance: Float64Array.from({ length: count ** 2 }, (_, i) =>
      modes.reduce((sum, mode) => sum + mode[Math.floor(i / count)] * mode[i % count], 0),
    ),
  });
  const alone = (j: number, sd: number) => nothing.map((_, i) => (i === j ? sd : 0));
  const sharesOf = (...toners: readonly number[]) =>
    scatteringShares(
      model.coefficients,
      nothing.map((_, j) => (toners.includes(j) ? 50 : 0)),
    );

  it("has both variances where they are independent, none where they are fully correlated", () => {
    const apart = wrongBy(alone(white, 0.03), alone(green, 0.04));
    expect(sdsInPot(apart, sharesOf(white))[green]).toBeCloseTo(0.05, 12);
    expect(sdsInPot(wrongBy(nothing.map(() => 0.2)), sharesOf(white))[green]).toBeCloseTo(0, 7);
    expect(sdsInPot(wrongBy(), sharesOf(white))[green]).toBe(0);
  });

  it("is against each toner of the pot by its share in the scattering", () => {
    const { size, s } = model.coefficients;
    const scattering = (j: number) =>
      s.subarray(j * size, (j + 1) * size).reduce((sum, value) => sum + value, 0);
    const share = scattering(green) / (scattering(white) + scattering(green));
    const sds = sdsInPot(wrongBy(alone(green, 0.1)), sharesOf(white, green));
    expect(sds[yellow]).toBeCloseTo(0.1 * share, 12);
    expect(sds[green]).toBeCloseTo(0.1 * (1 - share), 12);
  });

  it("lets a can stronger by z·σ give no more than was wanted", () => {
    expect(firstShare(0, 0.95)).toBe(1);
    expect(firstShare(0.15, 0.95)).toBeCloseTo(1 / (1 + 1.6448536 * 0.15), 7);
  });

  it("lets whole steps be poured, and whole steps stay so in spite of binary fractions", () => {
    expect(wholeSteps(0.4, 0.75, 0.1)).toBe(0.3);
    expect(wholeSteps(5, 0.99, 2)).toBe(4);
    expect(wholeSteps(1, 0.5, 2)).toBe(1);
  });
});

describe("what is left once additions are poured", () => {
  it("is a fuller pot, less room and less stock, none of them below 0", () => {
    const bench = { ...problem.bench, stock: nothing.map((_, j) => (j === 0 ? 1 : 10)), room: 5 };
    const poured = nothing.map((_, j) => (j === 0 ? 2 : j === 1 ? 1 : 0));
    const left = oncePoured({ ...problem, bench }, poured).bench;
    expect(left.pot[0]).toBe(bench.pot[0] + 2);
    expect(Array.from(left.stock.slice(0, 3))).toEqual([0, 9, 10]);
    expect(left.room).toBe(2);
    expect(oncePoured({ ...problem, bench: { ...bench, room: 1 } }, poured).bench.room).toBe(0);
  });
});

describe("what is asked of a forecast", () => {
  it.each([
    [{ level: 0.4 }, "out-of-range", "level"],
    [{ level: 1 }, "out-of-range", "level"],
    [{ safety: 0.4 }, "out-of-range", "safety"],
    [{ safety: 1 }, "out-of-range", "safety"],
    [{ knownSd: -1 }, "out-of-range", "knownSd"],
    [{ knownSd: 11 }, "out-of-range", "knownSd"],
    [{ draws: 1 }, "out-of-range", "draws"],
    [{ draws: 100_001 }, "out-of-range", "draws"],
    [{ drawsOfReturn: 1 }, "out-of-range", "drawsOfReturn"],
    [{ drawsOfReturn: 2.5 }, "wrong-type", "drawsOfReturn"],
    [{ seed: -1 }, "out-of-range", "seed"],
    [{ levl: 1 }, "unknown-key", "levl"],
    [{ doubts: { gloss: 1 } }, "unknown-key", "doubts"],
  ])("is refused: %j", (options, code, path) => {
    expect(() => FORECAST_OPTIONS.check(options, "forecast")).toThrow(
      expect.objectContaining({ code, path: `forecast.${path}` }),
    );
  });

  it("is otherwise what is said, and the defaults", () => {
    expect(FORECAST_OPTIONS.check({}, "")).toEqual(FORECAST_DEFAULTS);
    expect(FORECAST_OPTIONS.check({ level: undefined, draws: 2, seed: 0 }, "")).toEqual({
      ...FORECAST_DEFAULTS,
      draws: 2,
      seed: 0,
    });
  });
});
