import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fewestPots } from "../../src/planning/holdBack/fewestPots.js";

/** Every order of the panels cut at every set of places: plain, exhaustive, shares nothing with the code tested. */
function bruteForce(costs: readonly (readonly number[])[]): { readonly pots: number; readonly cost: number } {
  let best = { pots: Number.POSITIVE_INFINITY, cost: Number.POSITIVE_INFINITY };
  for (const order of orders(costs.map((_, i) => i))) {
    for (let cuts = 0; cuts < 2 ** (order.length - 1); cuts++) {
      let pots = 1;
      let cost = 0;
      for (let i = 1; i < order.length; i++) {
        if (cuts & (1 << (i - 1))) pots++;
        else cost += costs[order[i - 1]][order[i]];
      }
      const isBetter = pots < best.pots || (pots === best.pots && cost < best.cost);
      if (Number.isFinite(cost) && isBetter) best = { pots, cost };
    }
  }
  return best;
}

function orders(items: readonly number[]): readonly (readonly number[])[] {
  if (items.length <= 1) return [items];
  return items.flatMap((item) =>
    orders(items.filter((other) => other !== item)).map((rest) => [item, ...rest]),
  );
}

const poured = fc.oneof(
  { weight: 2, arbitrary: fc.constant(Number.POSITIVE_INFINITY) },
  { weight: 1, arbitrary: fc.constant(0) },
  { weight: 3, arbitrary: fc.double({ min: 0, max: 0.5, noNaN: true }) },
);
const matrices = fc
  .integer({ min: 1, max: 6 })
  .chain((n) => fc.array(fc.array(poured, { minLength: n, maxLength: n }), { minLength: n, maxLength: n }));

describe("fewestPots", () => {
  it("equals brute force over all orders and all cuts, for one to six panels", () => {
    fc.assert(
      fc.property(matrices, (costs) => {
        const pots = fewestPots(costs);
        expect([...pots.flat()].sort()).toEqual(costs.map((_, i) => i));
        const cost = pots.reduce(
          (sum, pot) => sum + pot.slice(1).reduce((inPot, to, i) => inPot + costs[pot[i]][to], 0),
          0,
        );
        const least = bruteForce(costs);
        expect(pots.length).toBe(least.pots);
        expect(cost).toBeCloseTo(least.cost, 9);
      }),
      { numRuns: 300, seed: 41 },
    );
  });

  it("goes from the most faded to the least where that is the only way", () => {
    const no = Number.POSITIVE_INFINITY;
    const costs = [
      [0, no, no],
      [0.1, 0, no],
      [0.2, 0.05, 0],
    ];
    expect(fewestPots(costs)).toEqual([[2, 1, 0]]);
  });

  it("is a smallest chain cover of a partial order: as many pots as its largest antichain (Dilworth 1950)", () => {
    const points = fc.array(fc.tuple(fc.integer({ min: 0, max: 5 }), fc.integer({ min: 0, max: 5 })), {
      minLength: 1,
      maxLength: 8,
    });
    fc.assert(
      fc.property(points, (list) => {
        const isBelow = ([a, b]: (typeof list)[number], [c, d]: (typeof list)[number]) => a <= c && b <= d;
        const costs = list.map((from) =>
          list.map((to) => (isBelow(from, to) ? 1 : Number.POSITIVE_INFINITY)),
        );
        let largest = 0;
        for (let subset = 1; subset < 2 ** list.length; subset++) {
          const chosen = list.filter((_, i) => subset & (1 << i));
          const apart = chosen.every((a, i) =>
            chosen.every((b, j) => i === j || (!isBelow(a, b) && !isBelow(b, a))),
          );
          if (apart) largest = Math.max(largest, chosen.length);
        }
        expect(fewestPots(costs)).toHaveLength(largest);
      }),
      { numRuns: 150, seed: 42 },
    );
  });

  it("serves twelve panels", () => {
    const costs = Array.from({ length: 12 }, (_, i) =>
      Array.from({ length: 12 }, (__, j) => (i < j ? 0.01 : Number.POSITIVE_INFINITY)),
    );
    expect(fewestPots(costs)).toEqual([Array.from({ length: 12 }, (_, i) => i)]);
  });
});
