import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { beliefOf } from "../../src/belief/belief.js";
import { filmResponse } from "../../src/belief/filmResponse.js";
import { tie } from "../../src/belief/tie.js";
import { createEvaluation, evaluate } from "../../src/forward/evaluate.js";
import { createRandom } from "../../src/numeric/probability/random.js";
import { pots } from "../fixtures/arbitraries.js";
import { drawnCard, priorOf } from "./pots.js";

describe("tie", () => {
  it("returns the last card at its pot, whatever the pot and however many cards", () => {
    fc.assert(
      fc.property(pots, fc.integer({ min: 0, max: 1e6 }), fc.boolean(), ({ set, grams }, seed, isSecond) => {
        const prior = priorOf(set);
        const random = createRandom(seed);
        const first = drawnCard(prior, grams, random);
        const more = grams.map((amount, j) => amount + (j === 0 ? 20 : 0));
        const cards = isSecond ? [first, drawnCard(prior, more, random)] : [first];
        const tied = tie(beliefOf(prior, cards));
        const at = createEvaluation(tied);
        const { grams: pot, reflectance } = cards[cards.length - 1];
        evaluate(tied, pot, at);
        reflectance.forEach((value, b) => {
          expect(Math.abs(at.reflectance[b] - value)).toBeLessThan(1e-9);
        });
      }),
      { numRuns: 40, seed: 8 },
    );
  });

  it("is elsewhere the likeliest world, without what is the card's own and what the fit left", () => {
    fc.assert(
      fc.property(pots, fc.integer({ min: 0, max: 1e6 }), ({ set, grams }, seed) => {
        const prior = priorOf(set, {
          offsetSd: 0,
          gainSd: 0,
          tiltSd: 0,
          filmBuildSd: 0,
          pourSd: 0,
          pourShareSd: 0,
        });
        const belief = beliefOf(prior, [drawnCard(prior, grams, createRandom(seed))]);
        const { scope, posterior } = belief;
        const tied = tie(belief);
        const at = createEvaluation(tied);
        const more = grams.map(
          (amount, j) => amount + (j === 0 ? 0.1 * grams.reduce((a, b) => a + b, 0) : 0),
        );
        evaluate(tied, more, at);
        const film = { ...scope.films[0], grams: more };
        const world = { unknowns: scope.unknowns, u: posterior.u };
        const likeliest = filmResponse(prior.model, scope.strengths, world, film).reflectance;
        // What the fit left is a few times the noise of a reading, 0.001.
        likeliest.forEach((value, b) => {
          expect(Math.abs(at.reflectance[b] - value)).toBeLessThan(0.01);
        });
      }),
      { numRuns: 40, seed: 9 },
    );
  });
});
