import { describe, expect, it } from "vitest";
import { labFromXyz } from "../../../src/colorimetry/lab.js";
import { xyzFromReflectance } from "../../../src/colorimetry/xyz.js";
import { after } from "../../../src/correction/after.js";
import { DOUBTS, DOUBTS_SHAPE, type Doubts } from "../../../src/correction/forecast/doubts.js";
import { drawColours, halfWidth } from "../../../src/correction/forecast/drawColours.js";
import { relativeStrengthSd, wholeSteps } from "../../../src/correction/forecast/firstShare.js";
import { FORECAST_DEFAULTS, FORECAST_OPTIONS } from "../../../src/correction/forecast/forecastOptions.js";
import { labSpread, totalSpread } from "../../../src/correction/forecast/labSpread.js";
import { nextCard, sprayedCard } from "../../../src/correction/forecast/nextCard.js";
import { oncePoured } from "../../../src/correction/forecast/reachable.js";
import { allBands, bandByBand, smoothly } from "../../../src/correction/forecast/reflectanceModes.js";
import { checkJob } from "../../../src/correction/job.js";
import { prepareProblem } from "../../../src/correction/problem.js";
import { createRandom } from "../../../src/numeric/random.js";
import { gramsInOrder } from "../../../src/toners/pot.js";
import { horseboxJob } from "../../fixtures/horsebox.js";

const job = horseboxJob();
const { problem } = prepareProblem(checkJob(job));
const { model } = problem;
const sprayed = sprayedCard(problem);
const count = problem.bench.pot.length;
const nothing = new Float64Array(count);
const added = gramsInOrder({ yellow: 6, violet: 1 }, model.set.toners);
const sure = { mean: nothing, modes: [] };
const none: Doubts = {
  ...DOUBTS,
  strength: 0,
  pouring: 0,
  reading: 0,
  targetReading: 0,
  spraying: 0,
  gloss: 0,
  characterisation: 0,
  model: 0,
  tie: 0,
};
const spreadOf = (
  additions: Float64Array,
  doubts: Partial<Doubts>,
  belief: Parameters<typeof labSpread>[1] = sure,
) => labSpread(sprayed, belief, { additions, step: 0.1 }, { ...none, ...doubts });

/** Lab of a reflectance under all lights (the example has one geometry). */
const labOf = (reflectance: ArrayLike<number>) =>
  model.lights.flatMap(({ tristimulus }) => [
    ...labFromXyz(xyzFromReflectance(Float64Array.from(reflectance), tristimulus), tristimulus.white),
  ]);
const halfDifference = (up: ArrayLike<number>, down: ArrayLike<number>) =>
  Array.from(up, (value, i) => (value - down[i]) / 2);
const expectSquares = (covariance: Float64Array, causes: readonly (readonly number[])[]) => {
  const width = Math.sqrt(covariance.length);
  const expected = Array.from({ length: covariance.length }, (_, at) =>
    causes.reduce((sum, cause) => sum + cause[Math.floor(at / width)] * cause[at % width], 0),
  );
  const size = Math.max(...expected.map(Math.abs));
  expect(size).toBeGreaterThan(0);
  covariance.forEach((value, at) => {
    expect(Math.abs(value - expected[at]) / size).toBeLessThan(1e-3);
  });
};

describe("the spread of the next card by each cause, from the exact model moved by hand", () => {
  const { card } = sprayed;
  const shifted = (by: (r: number) => number) =>
    halfDifference(labOf(Array.from(card, (r) => r + by(r))), labOf(Array.from(card, (r) => r - by(r))));

  it("of another card of the same pot: what befell this card and what befalls the next", () => {
    const gloss = shifted(() => 1e-4);
    expectSquares(spreadOf(nothing, { gloss: 1e-4 }).gloss, [gloss, gloss]);
    const spraying = shifted((r) => 1e-3 * r);
    expectSquares(spreadOf(nothing, { spraying: 1e-3 }).spraying, [spraying, spraying]);
    const bands = Array.from(card, (_, band) =>
      halfDifference(
        labOf(Array.from(card, (r, b) => (b === band ? r + 1e-4 : r))),
        labOf(Array.from(card, (r, b) => (b === band ? r - 1e-4 : r))),
      ),
    );
    expectSquares(spreadOf(nothing, { reading: 1e-4 }).reading, [...bands, ...bands]);
    expectSquares(spreadOf(nothing, { targetReading: 1e-4 }).targetReading, bands);
    for (const cause of ["model", "tie", "pouring", "strength"] as const)
      expect(Math.max(...spreadOf(nothing, { [cause]: 1 })[cause].map(Math.abs)), cause).toBeLessThan(1e-18);
  });

  it("of what is poured, each toner by half a step, and no more than all of it", () => {
    const at = (additions: Float64Array) => after(problem, additions).lab;
    const causes = Array.from(added.keys())
      .filter((j) => added[j] > 0)
      .map((j) => {
        const moved = (by: number) => at(added.map((grams, i) => (i === j ? grams + by : grams)));
        return halfDifference(moved(0.05), moved(-0.05));
      });
    expect(causes.length).toBe(2);
    expectSquares(spreadOf(added, { pouring: 0.5 }).pouring, causes);
    const all = Array.from(added.keys())
      .filter((j) => added[j] > 0)
      .map((j) => {
        const by = (factor: number) => at(added.map((grams, i) => (i === j ? factor * grams : grams)));
        return halfDifference(by(2), by(0));
      });
    expectSquares(spreadOf(added, { pouring: 1000 }).pouring, all);
  });

  it("of strengths, each way to be wrong by itself", () => {
    const mode = nothing.map((_, j) => (j === added.findIndex((grams) => grams > 0) ? 0.1 : 0));
    const at = (sign: number) =>
      nextCard(sprayed, { lnStrength: mode.map((value) => sign * value) }, added).lab;
    const one = halfDifference(at(1), at(-1));
    expectSquares(spreadOf(added, {}, { mean: nothing, modes: [mode] }).strength, [one]);
    expectSquares(spreadOf(added, {}, { mean: nothing, modes: [mode, mode] }).strength, [one, one]);
  });

  it("of the tie and of the model, in proportion to the doubt", () => {
    for (const cause of ["tie", "model", "gloss", "spraying", "reading"] as const) {
      const [once, thrice] = [1, 3].map((size) => spreadOf(added, { [cause]: 0.01 * size })[cause]);
      const largest = Math.max(...thrice.map(Math.abs));
      expect(largest).toBeGreaterThan(0);
      once.forEach((value, i) => {
        expect(Math.abs(9 * value - thrice[i]) / largest, cause).toBeLessThan(1e-9);
      });
    }
  });

  it("adds up over all causes, or those named", () => {
    const spread = spreadOf(added, { gloss: 1e-3, model: 0.05 });
    const total = totalSpread(spread);
    expect(total[0]).toBeCloseTo(spread.gloss[0] + spread.model[0], 15);
    expect(totalSpread(spread, ["gloss"])).toEqual(spread.gloss);
  });
});

describe("errors of reflectance", () => {
  const bands = model.set.grid.count;
  const dot = (a: Float64Array, b: Float64Array) => a.reduce((sum, value, i) => sum + value * b[i], 0);

  it("band by band are each band alone, and none at all without any", () => {
    const modes = bandByBand(model, 0.2);
    expect(modes.length).toBe(bands);
    modes.forEach((mode, b) => {
      expect(Array.from(mode.keys()).filter((i) => mode[i] !== 0)).toEqual([b]);
      expect(mode[b]).toBe(0.2);
    });
    expect(bandByBand(model, 0)).toEqual([]);
  });

  it("of all bands together are one, smooth ones four that are orthogonal, of the same variance on average", () => {
    const [one, ...rest] = allBands(model, () => 0.3);
    expect(rest).toEqual([]);
    expect(Array.from(one)).toEqual(new Array(bands).fill(expect.closeTo(0.3, 12)));
    const smooth = smoothly(model, () => 0.3);
    expect(smooth.length).toBe(4);
    smooth.forEach((mode, i) => {
      smooth.forEach((other, k) => {
        expect(dot(mode, other)).toBeCloseTo(i === k ? (bands * 0.3 ** 2) / 4 : 0, 10);
      });
    });
    // The size may differ from band to band.
    expect(Array.from(allBands(model, (b) => b)[0])).toEqual(
      Array.from({ length: bands }, (_, b) => expect.closeTo(b, 12)),
    );
  });

  it("are those of one geometry at a time", () => {
    const two = {
      ...model,
      geometries: [model.geometries[0], "45:0" as const],
      coefficients: { ...model.coefficients, size: 2 * bands },
    };
    const [first, second] = allBands(two, () => 1);
    expect(Array.from(first)).toEqual([...new Array(bands).fill(1), ...new Array(bands).fill(0)]);
    expect(Array.from(second)).toEqual([...new Array(bands).fill(0), ...new Array(bands).fill(1)]);
    expect(smoothly(two, () => 1).length).toBe(8);
  });
});

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
  const [white, green] = [ids.indexOf("white"), ids.indexOf("green")];
  const pot = nothing.map((_, j) => (j === white ? 100 : 0));
  const alone = (j: number, sd: number) => nothing.map((_, i) => (i === j ? sd : 0));

  it("is doubtful by both where they are independent, not at all where they are wrong together", () => {
    const one = { ...sprayed, pot };
    const apart = { mean: nothing, modes: [alone(white, 0.03), alone(green, 0.04)] };
    expect(relativeStrengthSd(one, apart, green)).toBeCloseTo(0.05, 12);
    const together = { mean: nothing, modes: [nothing.map(() => 0.2)] };
    expect(relativeStrengthSd(one, together, green)).toBeCloseTo(0, 12);
    expect(relativeStrengthSd(one, { mean: nothing, modes: [] }, green)).toBe(0);
  });

  it("is against each toner of the pot by its share in the scattering", () => {
    const half = { ...sprayed, pot: nothing.map((_, j) => (j === white || j === green ? 50 : 0)) };
    const { size, s } = model.coefficients;
    const scattering = (j: number) =>
      s.subarray(j * size, (j + 1) * size).reduce((sum, value) => sum + value, 0);
    const share = scattering(green) / (scattering(white) + scattering(green));
    const yellow = ids.indexOf("yellow");
    expect(relativeStrengthSd(half, { mean: nothing, modes: [alone(green, 0.1)] }, yellow)).toBeCloseTo(
      0.1 * share,
      12,
    );
    expect(relativeStrengthSd(half, { mean: nothing, modes: [alone(green, 0.1)] }, green)).toBeCloseTo(
      0.1 * (1 - share),
      12,
    );
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
    [{ doubts: { gloss: -1 } }, "out-of-range", "doubts.gloss"],
    [{ doubts: { gloss: 101 } }, "out-of-range", "doubts.gloss"],
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
    expect(DOUBTS_SHAPE.check({ gloss: 0, model: 100 }, "")).toEqual({ ...DOUBTS, gloss: 0, model: 100 });
    expect(DOUBTS_SHAPE.check({ gloss: undefined }, "")).toEqual(DOUBTS);
  });
});
