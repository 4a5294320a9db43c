import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { logScale } from "../../../src/report/chart/logScale.js";
import { extent, linearScale, niceDomain, type Scale } from "../../../src/report/chart/scale.js";

const finite = fc.double({ noNaN: true, noDefaultInfinity: true });
const ordinary = fc.double({ min: -1000, max: 1000, noNaN: true });
const positive = fc.double({ min: 1e-12, max: 1e12, noNaN: true });

function expectReadableTicks({ ticks, domain: [low, high], at }: Scale) {
  expect(ticks.length).toBeGreaterThanOrEqual(2);
  expect(ticks.length).toBeLessThanOrEqual(14);
  expect(new Set(ticks.map(({ label }) => label)).size).toBe(ticks.length);
  const slack = 1e-9 * (high - low);
  for (const { value } of ticks) {
    expect(value).toBeGreaterThanOrEqual(low - slack);
    expect(value).toBeLessThanOrEqual(high + slack);
  }
  const pixels = ticks.map(({ value }) => at(value));
  for (let i = 1; i < pixels.length; i++) expect(pixels[i]).toBeGreaterThan(pixels[i - 1]);
}

const expectMonotone = (scale: Scale, values: readonly number[]) => {
  const pixels = [...values].sort((a, b) => a - b).map(scale.at);
  for (let i = 1; i < pixels.length; i++) expect(pixels[i]).toBeGreaterThanOrEqual(pixels[i - 1]);
  for (const pixel of pixels) {
    expect(pixel).toBeGreaterThanOrEqual(-1e-9);
    expect(pixel).toBeLessThanOrEqual(500 + 1e-9);
  }
};

describe("linearScale on a nice domain", () => {
  it("runs one way and stays inside, for any values", () => {
    fc.assert(
      fc.property(fc.array(finite, { minLength: 1 }), fc.array(finite), (values, others) => {
        expectMonotone(linearScale(niceDomain(extent(values), 5), [0, 500], 5), [...values, ...others]);
      }),
    );
  });

  it("has ticks apart, inside, with different labels that say their value", () => {
    fc.assert(
      fc.property(fc.array(ordinary, { minLength: 1 }), (values) => {
        const scale = linearScale(niceDomain(extent(values), 5), [0, 500], 5);
        expectReadableTicks(scale);
        for (const { value, label } of scale.ticks) {
          expect(Number(label.replace("−", "-"))).toBeCloseTo(value, 9);
        }
      }),
    );
  });

  it.each([
    [
      [0, 0.87],
      ["0.0", "0.2", "0.4", "0.6", "0.8", "1.0"],
    ],
    [
      [-0.012, 0.012],
      ["−0.015", "−0.010", "−0.005", "0.000", "0.005", "0.010", "0.015"],
    ],
    [
      [3, 3],
      ["2.4", "2.6", "2.8", "3.0", "3.2", "3.4", "3.6"],
    ],
  ] as const)("for %j shows %j", (domain, labels) => {
    const nice = niceDomain(domain, 5);
    expect(linearScale(nice, [0, 1], 5).ticks.map(({ label }) => label)).toEqual(labels);
  });

  it("says NaN for NaN, and the ends for infinities", () => {
    const { at } = linearScale([0, 10], [0, 100], 5);
    expect(at(Number.NaN)).toBeNaN();
    expect(at(Number.POSITIVE_INFINITY)).toBe(100);
    expect(at(Number.NEGATIVE_INFINITY)).toBe(0);
  });
});

describe("extent", () => {
  it("looks at finite values only, and has an answer without any", () => {
    expect(extent([Number.NaN, 3, Number.POSITIVE_INFINITY, -2])).toEqual([-2, 3]);
    expect(extent([Number.NaN])).toEqual([0, 1]);
  });
});

describe("logScale", () => {
  it("runs one way, stays inside and has readable ticks, for any positive values", () => {
    fc.assert(
      fc.property(fc.array(positive, { minLength: 1 }), fc.array(finite), (values, others) => {
        const scale = logScale(extent(values), [0, 500]);
        expectMonotone(scale, [...values, ...others]);
        expectReadableTicks(scale);
      }),
    );
  });

  it.each([
    [
      [0.03, 0.9],
      ["0.02", "0.05", "0.1", "0.2", "0.5", "1"],
    ],
    [
      [3e-4, 0.07],
      ["0.001", "0.01", "0.1"],
    ],
    [
      [1e-6, 2e-6],
      ["10⁻⁶", "2·10⁻⁶"],
    ],
    [
      [1, 1],
      ["1", "2"],
    ],
  ] as const)("for %j shows %j", (domain, labels) => {
    expect(logScale(domain, [0, 1]).ticks.map(({ label }) => label)).toEqual(labels);
  });

  it("gives equal ratios equal lengths", () => {
    const { at } = logScale([0.01, 100], [0, 400]);
    expect([0.01, 0.1, 1, 10, 100].map(at).map(Math.round)).toEqual([0, 100, 200, 300, 400]);
  });
});
