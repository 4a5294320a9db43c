import { describe, expect, it } from "vitest";
import { InputError } from "../../src/core/InputError.js";
import { type Mix, predict } from "../../src/prediction/predict.js";

const flat = (value: number) => new Array<number>(31).fill(value);
const toner = (id: string, k: number, s: number) => ({
  id,
  k: { "d:8 specular included": flat(k), "45:0": flat(k) },
  s: { "d:8 specular included": flat(s), "45:0": flat(s) },
});

/** Flat spectra, so that every number can be had with pencil and paper. */
const mix: Mix = {
  toners: {
    grid: { start: 400, step: 10, count: 31 },
    surfaces: [
      { geometry: "d:8 specular included", k1: 0.04, k2: 0.6 },
      { geometry: "45:0", k1: 0.04, k2: 0.6, crossing: 0.4 },
    ],
    toners: [toner("white", 0, 1), toner("black", 1, 0), toner("clear", 0, 0)],
  },
  viewing: { observer: "1964-10", illuminants: [{ name: "D65" }, { name: "F11" }] },
  pot: { white: 80, black: 20 },
};

describe("predict", () => {
  // K/S = 20/80 = 1/4: R∞ = 1/(1 + ¼ + √(¼·2¼)) = 1/2. Saunderson: .04 + .96·.4·.5/(1 − .3) and .4·.5/.7.
  const byHand = [0.04 + (0.96 * 0.4 * 0.5) / 0.7, (0.4 * 0.5) / 0.7];

  it("gives what pencil and paper give for flat spectra (computed by hand)", () => {
    const { readings, predictions } = predict(mix);
    readings.forEach(({ reflectance }, g) => {
      for (const r of Array.from(reflectance)) expect(r).toBeCloseTo(byHand[g], 12);
    });
    expect(predictions.map(({ geometry, illuminant }) => `${geometry} ${illuminant}`)).toEqual([
      "d:8 specular included D65",
      "d:8 specular included F11",
      "45:0 D65",
      "45:0 F11",
    ]);
    predictions.forEach(({ lab, xyz }, c) => {
      const y = byHand[c < 2 ? 0 : 1];
      expect(xyz[1]).toBeCloseTo(100 * y, 10);
      expect(lab[0]).toBeCloseTo(116 * Math.cbrt(y) - 16, 9);
      expect(Math.hypot(lab[1], lab[2])).toBeLessThan(1e-9);
    });
  });

  it("does not change when the whole pot is scaled, nor when clear binder joins an opaque film", () => {
    const twice = predict({ ...mix, pot: { white: 160, black: 40, clear: 50 } });
    twice.predictions.forEach(({ lab }, c) => {
      predict(mix).predictions[c].lab.forEach((value, axis) => {
        expect(lab[axis]).toBeCloseTo(value, 10);
      });
    });
  });

  it("says that black darkens, white lightens and clear does nothing", () => {
    const { labPerGram } = predict(mix).predictions[0];
    expect(labPerGram.black[0]).toBeLessThan(-0.1);
    expect(labPerGram.white[0]).toBeGreaterThan(0.01);
    expect(labPerGram.clear).toEqual([0, 0, 0].map(() => expect.closeTo(0, 12)));
  });

  it("gives the reflectance of a dye that does not scatter as its surface alone", () => {
    const { readings, predictions } = predict({ ...mix, pot: { black: 10 } });
    expect(readings[0].reflectance[0]).toBeCloseTo(0.04, 12);
    expect(predictions.every(({ labPerGram }) => labPerGram.white.every(Number.isFinite))).toBe(true);
  });

  it("refuses a pot with nothing to see in it", () => {
    for (const pot of [{}, { clear: 100 }, { white: 0 }]) {
      const attempt = () => predict({ ...mix, pot });
      expect(attempt).toThrow(InputError);
      expect(attempt).toThrow(/^pot: .*\[no-pigment\]$/);
    }
  });
});
