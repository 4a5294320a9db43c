import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { beliefOf } from "../../src/belief/belief.js";
import { addRowSlopes, coloursOf } from "../../src/belief/colourSlopes.js";
import { filmResponse, filmSlopes } from "../../src/belief/filmResponse.js";
import { createRandom } from "../../src/numeric/probability/random.js";
import { pots } from "../fixtures/arbitraries.js";
import { priorOf } from "./pots.js";

/** A pot of which two cards were sprayed, the second with more of its first toner; every owner has unknowns. */
const cases = fc.tuple(pots, fc.integer({ min: 0, max: 1e6 })).map(([{ set, grams }, seed]) => {
  const prior = priorOf(set, { companySd: 0.1 });
  const { size } = prior.model.coefficients;
  const cards = [grams, grams.map((amount, j) => amount + (j === 0 ? 7 : 0))].map((of) => ({
    grams: of,
    reflectance: new Float64Array(size).fill(0.3),
  }));
  const { scope } = beliefOf(prior, cards, { effort: { steps: 0, halvings: 0 } });
  const random = createRandom(seed);
  return { ...scope, u: Float64Array.from(scope.unknowns, () => random.normal()), random };
});
type Case = typeof cases extends fc.Arbitrary<infer T> ? T : never;

/** By central differences of fourth order, half of a hundredth of a standard deviation away. */
function byDifferences({ u }: Case, x: number, of: (u: Float64Array) => Float64Array): Float64Array {
  const h = 0.005;
  const at = (by: number) => of(u.map((value, i) => (i === x ? value + by * h : value)));
  const [m2, m1, p1, p2] = [at(-2), at(-1), at(1), at(2)];
  return m1.map((_, i) => (m2[i] - 8 * m1[i] + 8 * p1[i] - p2[i]) / (12 * h));
}

/** Six unknowns of each owner are looked at: a smooth curve has as many as it has waves. */
function someOf({ unknowns, random }: Case): readonly number[] {
  const owners = [...new Set(unknowns.map(({ owner }) => owner))];
  return owners.flatMap((owner) => {
    const own = [...unknowns.keys()].filter((x) => unknowns[x].owner === owner);
    return Array.from({ length: 6 }, () => own[random.integer(own.length)]);
  });
}

describe("slopes by what is unknown equal central differences", () => {
  it("of reflectance, for unknowns of every owner", () => {
    fc.assert(
      fc.property(cases, (one) => {
        const { model, strengths, unknowns, u } = one;
        expect(new Set(unknowns.map(({ owner }) => owner))).toEqual(
          new Set(["can", "toner", "pot", "surface", "film", "pour"]),
        );
        for (const film of one.films) {
          const at = (moved: Float64Array) =>
            filmResponse(model, strengths, { unknowns, u: moved }, film).reflectance;
          const response = filmResponse(model, strengths, { unknowns, u }, film);
          const slopes = filmSlopes(response, unknowns, film);
          const { length } = response.reflectance;
          for (const x of someOf(one)) {
            const expected = byDifferences(one, x, at);
            const size = Math.max(...expected.map(Math.abs));
            expected.forEach((slope, b) => {
              expect(Math.abs(slopes[x * length + b] - slope)).toBeLessThanOrEqual(1e-6 * size + 1e-11);
            });
          }
        }
      }),
      { numRuns: 12, seed: 5 },
    );
  });

  it("of colours, through rows over the bands", () => {
    fc.assert(
      fc.property(cases, (one) => {
        const { model, strengths, unknowns, u } = one;
        const film = one.films[1];
        const labAt = (moved: Float64Array) =>
          coloursOf(model, filmResponse(model, strengths, { unknowns, u: moved }, film).reflectance).lab;
        const response = filmResponse(model, strengths, { unknowns, u }, film);
        const { lab, byReflectance } = coloursOf(model, response.reflectance);
        const slopes = new Float64Array(unknowns.length * lab.length);
        addRowSlopes(byReflectance, response, { unknowns, film }, slopes, 0.5);
        addRowSlopes(byReflectance, response, { unknowns, film }, slopes, 0.5);
        for (const x of someOf(one)) {
          const expected = byDifferences(one, x, labAt);
          const size = Math.max(...expected.map(Math.abs));
          expected.forEach((slope, i) => {
            expect(Math.abs(slopes[x * lab.length + i] - slope)).toBeLessThanOrEqual(1e-6 * size + 1e-9);
          });
        }
      }),
      { numRuns: 12, seed: 6 },
    );
  });
});
