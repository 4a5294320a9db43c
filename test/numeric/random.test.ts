import { describe, expect, it } from "vitest";
import { createRandom } from "../../src/numeric/probability/random.js";
import { refusal } from "../support/refusal.js";

const WORDS = 2 ** 32;

describe("createRandom", () => {
  it("gives the words of the PCG32 demonstration, seed 42, stream 54 (published, from memory; the same computed by compiling the generator in C)", () => {
    const { integer } = createRandom(42);
    expect(Array.from({ length: 6 }, () => integer(WORDS))).toEqual([
      0xa15c02b7, 0x7b47f409, 0xba1d3330, 0x83d2f293, 0xbfa4784b, 0xcbed606e,
    ]);
  });

  it("gives the millionth word too, and those of another seed (computed by compiling the generator in C)", () => {
    const { integer } = createRandom(42);
    for (let k = 1; k < 1e6; k++) integer(WORDS);
    expect(integer(WORDS)).toBe(0xef1e2afa);
    const other = createRandom(4294967295);
    expect(Array.from({ length: 4 }, () => other.integer(WORDS))).toEqual([
      0x1836f28a, 0x41720992, 0x67039735, 0xe39c0b28,
    ]);
  });

  it("repeats itself for the same seed only", () => {
    const draw = (seed: number) => {
      const { uniform, normal, integer } = createRandom(seed);
      return [uniform(), normal(), integer(6), normal(), uniform()];
    };
    expect(draw(7)).toEqual(draw(7));
    expect(draw(7)).not.toEqual(draw(8));
  });

  it("fills [0, 1) evenly: mean, variance and twenty bins within five standard errors", () => {
    const { uniform } = createRandom(1);
    const count = 100_000;
    const bins = new Float64Array(20);
    let total = 0;
    let squares = 0;
    for (let k = 0; k < count; k++) {
      const u = uniform();
      expect(u >= 0 && u < 1).toBe(true);
      bins[Math.floor(20 * u)]++;
      total += u;
      squares += u * u;
    }
    expect(Math.abs(total / count - 1 / 2)).toBeLessThan(5 * Math.sqrt(1 / 12 / count));
    expect(Math.abs(squares / count - 1 / 3)).toBeLessThan(5 * Math.sqrt(4 / 45 / count));
    for (const n of bins)
      expect(Math.abs(n / count - 0.05)).toBeLessThan(5 * Math.sqrt((0.05 * 0.95) / count));
  });

  it("draws the normal law: four moments and the share beyond 1.96 within five standard errors", () => {
    const { normal } = createRandom(2);
    const count = 100_000;
    const draws = Array.from({ length: count }, normal);
    const moment = (power: number) => draws.reduce((sum, z) => sum + z ** power, 0) / count;
    const error = (variance: number) => 5 * Math.sqrt(variance / count);
    expect(Math.abs(moment(1))).toBeLessThan(error(1));
    expect(Math.abs(moment(2) - 1)).toBeLessThan(error(2));
    expect(Math.abs(moment(3))).toBeLessThan(error(15));
    expect(Math.abs(moment(4) - 3)).toBeLessThan(error(96));
    const beyond = draws.filter((z) => Math.abs(z) > 1.959963984540054).length / count;
    expect(Math.abs(beyond - 0.05)).toBeLessThan(error(0.05 * 0.95));
  });

  it("draws integers evenly, also up to 3·2³⁰, where a plain remainder would be biased", () => {
    const { integer } = createRandom(3);
    const sides = new Float64Array(6);
    for (let k = 0; k < 60_000; k++) sides[integer(6)]++;
    for (const n of sides) expect(Math.abs(n / 60_000 - 1 / 6)).toBeLessThan(5 * Math.sqrt(5 / 36 / 60_000));

    // Of the remainders of a 32-bit word by 3·2³⁰, the lowest 2³⁰ come up half of the time instead of a third.
    let low = 0;
    for (let k = 0; k < 20_000; k++) if (integer(3 * 2 ** 30) < 2 ** 30) low++;
    expect(Math.abs(low / 20_000 - 1 / 3)).toBeLessThan(5 * Math.sqrt(2 / 9 / 20_000));
  });

  it("refuses other seeds and ranges", () => {
    expect(refusal(() => createRandom(-1))).toMatchObject({ code: "out-of-range", path: "seed" });
    expect(refusal(() => createRandom(0.5))).toMatchObject({ code: "wrong-type", path: "seed" });
    expect(refusal(() => createRandom(Number.NaN))).toMatchObject({ code: "not-finite", path: "seed" });
    expect(refusal(() => createRandom(1).integer(0))).toMatchObject({ code: "out-of-range", path: "below" });
    expect(refusal(() => createRandom(1).integer(WORDS + 1))).toMatchObject({ code: "out-of-range" });
  });
});
