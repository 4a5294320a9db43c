import { describe, expect, it } from "vitest";
import { beliefOf } from "../../src/belief/belief.js";
import { createFilmReader } from "../../src/belief/createFilmReader.js";
import { filmResponse } from "../../src/belief/filmResponse.js";
import { withOrientation } from "../fixtures/threeAngles.js";
import { priorOf } from "./pots.js";

const SET = withOrientation();
const POTS = [
  [80, 2, 10, 8],
  [80, 0.2, 10, 8],
  [0, 82, 10, 8],
  [80, 2, 0, 18],
  [8, 2, 100, 0],
].map((grams) => Float64Array.from(grams));

describe("createFilmReader", () => {
  it("reads of other grams what their response says, flakes, curves, pours and surface among it", () => {
    const prior = priorOf(SET, { companySd: 0.1 });
    const reflectance = new Float64Array(prior.model.coefficients.size).fill(0.3);
    const cards = [{ grams: POTS[0], reflectance }];
    const { scope } = beliefOf(prior, cards, { effort: { steps: 0, halvings: 0 } });
    const u = Float64Array.from(scope.unknowns, (_, x) => Math.sin(x + 1));
    const film = scope.films[0];
    const readOf = createFilmReader(scope, u, film);
    for (const grams of POTS) {
      const world = { unknowns: scope.unknowns, u };
      const expected = filmResponse(scope.model, scope.strengths, world, { ...film, grams }).reflectance;
      readOf(grams).forEach((value, b) => {
        expect(Math.abs(value - expected[b])).toBeLessThan(1e-13);
      });
    }
  });
});
