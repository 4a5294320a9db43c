import { describe, expect, it } from "vitest";
import { createForwardModel } from "../../src/forward/forwardModel.js";
import { labSd } from "../../src/prediction/labSd.js";
import { predict } from "../../src/prediction/predict.js";
import { cropTonerSet } from "../../src/toners/cropTonerSet.js";
import { TONER_SET, type TonerSet } from "../../src/toners/tonerSet.js";
import { refusal } from "../support/refusal.js";

const GEOMETRY = "d:8 specular included";
const GRID = { start: 400, step: 20, count: 16 };
const flat = (value: number) => ({ [GEOMETRY]: new Array<number>(GRID.count).fill(value) });
const SET: TonerSet = {
  grid: GRID,
  surfaces: [{ geometry: GEOMETRY, k1: 0.04, k2: 0.6 }],
  toners: [
    { id: "white", k: flat(0.01), s: flat(1) },
    { id: "black", k: flat(1), s: flat(0.05) },
  ],
};
const mode = (id: string, k: number, s = 0) => ({ [id]: { k: flat(k), s: flat(s) } });
const VIEWING = { observer: "1964-10", illuminants: [{ name: "D65" }] } as const;
const lightness = (set: TonerSet) =>
  predict({ toners: set, viewing: VIEWING, pot: { white: 9, black: 1 } }).predictions[0].lab[0];
const darkened = (by: number): TonerSet => ({
  ...SET,
  toners: SET.toners.map((toner) => (toner.id === "black" ? { ...toner, k: flat(Math.exp(by)) } : toner)),
});

describe("labSd", () => {
  const sdOf = (modes: TonerSet["uncertainty"]) =>
    labSd(createForwardModel(SET, VIEWING, [GEOMETRY]), [9, 1], modes ?? []);

  it("is half of what one sd up and one down make of the colour (predicted twice)", () => {
    const half = Math.abs(lightness(darkened(0.1)) - lightness(darkened(-0.1))) / 2;
    expect(sdOf([mode("black", 0.1)])[0]).toBeCloseTo(half, 12);
    expect(half).toBeGreaterThan(0.5);
  });

  it("adds the squares of modes, and knows that K and S moved together change no opaque film of one paint", () => {
    const [one, other] = [mode("black", 0.1), mode("white", 0, 0.05)];
    const both = sdOf([one, other])[0];
    expect(both).toBeCloseTo(Math.hypot(sdOf([one])[0], sdOf([other])[0]), 12);
    const model = createForwardModel(SET, VIEWING, [GEOMETRY]);
    expect(labSd(model, [0, 1], [mode("black", 0.2, 0.2)])[0]).toBeLessThan(1e-12);
  });

  it("stands in the prediction of a set that says how uncertain it is, and only there", () => {
    const job = { viewing: VIEWING, pot: { white: 9, black: 1 } };
    expect(predict({ ...job, toners: SET }).predictions[0]).not.toHaveProperty("labSd");
    const uncertain = { ...SET, uncertainty: [mode("black", 0.1)] };
    expect(predict({ ...job, toners: uncertain }).predictions[0].labSd?.[0]).toBeCloseTo(
      sdOf([mode("black", 0.1)])[0],
      12,
    );
  });
});

describe("the uncertainty of a toner set", () => {
  it("is cropped with the set", () => {
    const grid = { start: 420, step: 20, count: 10 };
    const cropped = cropTonerSet({ ...SET, uncertainty: [mode("black", 0.1)] }, grid);
    expect(cropped.uncertainty?.[0].black.k[GEOMETRY]).toHaveLength(10);
  });

  it("is refused for a toner that is not there, and for a wrong number of bands", () => {
    expect(refusal(() => TONER_SET.check({ ...SET, uncertainty: [mode("grey", 0.1)] }, "toners"))).toEqual({
      code: "unknown-toner",
      path: "toners.uncertainty[0].grey",
    });
    const short = { black: { k: { [GEOMETRY]: [0.1] }, s: flat(0) } };
    expect(refusal(() => TONER_SET.check({ ...SET, uncertainty: [short] }, ""))).toEqual({
      code: "wrong-length",
      path: `uncertainty[0].black.k["${GEOMETRY}"]`,
    });
  });
});
