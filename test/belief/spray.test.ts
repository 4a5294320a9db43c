import { describe, expect, it } from "vitest";
import { beliefOf } from "../../src/belief/belief.js";
import { fieldsOf, filmResponse, filmSlopes } from "../../src/belief/filmResponse.js";
import { tie } from "../../src/belief/tie.js";
import type { Unknown } from "../../src/belief/unknown.js";
import { createEvaluation, evaluate } from "../../src/forward/evaluate.js";
import { tilted } from "../../src/toners/orientation.js";
import { THREE_ANGLES, withOrientation } from "../fixtures/threeAngles.js";
import { priorOf } from "./pots.js";

const SET = withOrientation();
const prior = priorOf(SET);
const { size } = prior.model.coefficients;
const grams = Float64Array.from([80, 2, 10, 8]);
const movesFlakes = ({ effects: [{ field }] }: Unknown) => field === "flakeTilt";

/** What a film of flakes of state x reads; `bend` times x is what their lie does to S along the wavelengths, which no tilt has. */
function cardAt(x: number, bend = 0) {
  const { model, strengths } = beliefOf(prior, [{ grams, reflectance: new Float64Array(size).fill(0.3) }], {
    effort: { steps: 0, halvings: 0 },
  }).scope;
  const s = model.coefficients.s.slice();
  const bands = SET.grid.count;
  model.orientation[0]?.forEach((curve, g) => {
    for (let b = 0; curve && b < bands; b++) {
      s[g * bands + b] *= Math.exp(tilted(curve, x) + bend * x * Math.cos((2 * Math.PI * b) / bands));
    }
  });
  const lying = { ...model, coefficients: { ...model.coefficients, s } };
  const film = { place: 0, grams, kinship: Float64Array.of(1) };
  const { reflectance } = filmResponse(lying, strengths, { unknowns: [], u: [] }, film);
  return { grams, reflectance };
}

describe("how flakes lie", () => {
  it("has slopes that equal central differences", () => {
    const { scope } = beliefOf(prior, [cardAt(0)], { effort: { steps: 0, halvings: 0 } });
    const { model, strengths, unknowns, films } = scope;
    const x = unknowns.findIndex(movesFlakes);
    const u = Float64Array.from(unknowns, (_, i) => Math.sin(i + 1));
    const at = (moved: number) =>
      filmResponse(model, strengths, { unknowns, u: u.map((v, i) => (i === x ? moved : v)) }, films[0]);
    const slopes = filmSlopes(at(u[x]), unknowns, films[0]);
    const [below, above] = [at(u[x] - 1e-4), at(u[x] + 1e-4)].map(({ reflectance }) => reflectance);
    above.forEach((value, b) => {
      const slope = (value - below[b]) / 2e-4;
      expect(Math.abs(slopes[x * size + b] - slope)).toBeLessThan(1e-6);
    });
  });

  it.each([-0.15, 0.15])("is told from a card of known grams: x = %f", (x) => {
    const { scope, posterior, cards } = beliefOf(prior, [cardAt(x)]);
    const fields = fieldsOf(scope.model, scope.unknowns, posterior.u, scope.films[0]);
    // Drawn towards 0 by what is believed beforehand, of spraying and of the cans.
    expect(fields.flakeTilt[0] / x).toBeGreaterThan(0.6);
    expect(fields.flakeTilt[0] / x).toBeLessThan(1.1);
    const tied = tie({ ...beliefOf(prior, [cardAt(x)]), cards });
    const back = createEvaluation(tied);
    evaluate(tied, grams, back);
    back.reflectance.forEach((value, b) => {
      expect(Math.abs(value - cards[0].reflectance[b])).toBeLessThan(1e-9);
    });
  });

  it("is told of two cards of unlike tilts whose flakes do more than tilt", () => {
    const { scope, posterior } = beliefOf(prior, [cardAt(0, 0.2), cardAt(-0.15, 0.2)]);
    expect(posterior.converged).toBe(true);
    // Explained without strain: no more than about one for each number that was read.
    expect(posterior.chiSquare).toBeLessThan(2 * size);
    const [before, after] = scope.films.map(
      (film) => fieldsOf(scope.model, scope.unknowns, posterior.u, film).flakeTilt[0],
    );
    expect(before).toBeCloseTo(0, 1);
    expect((after - before) / -0.15).toBeGreaterThan(0.8);
    expect((after - before) / -0.15).toBeLessThan(1.1);
  });

  it("has no unknown without flake in the pot or without a measured orientation", () => {
    const solid = { grams: Float64Array.from([0, 80, 10, 8]), reflectance: cardAt(0).reflectance };
    expect(beliefOf(prior, [solid]).scope.unknowns.some(movesFlakes)).toBe(false);
    const unknown = beliefOf(priorOf(THREE_ANGLES), [cardAt(0)]);
    expect(unknown.scope.unknowns.some(movesFlakes)).toBe(false);
    // No flake in the pot: to the last bit what is believed where no toner has an orientation.
    expect(beliefOf(prior, [solid]).posterior).toEqual(beliefOf(priorOf(THREE_ANGLES), [solid]).posterior);
  });
});
