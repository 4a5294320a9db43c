import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { film, overBacking } from "../../src/optics/film.js";
import { airBoundary, filmLayer, type Layer, lay, stackReflectance } from "../../src/optics/stack.js";
import { FILMS_OF_GLASS } from "../../src/verification/data/films.js";
import { paintFilm } from "../support/filmArbitraries.js";
import { relativeDifference } from "../support/relativeDifference.js";

const share = fc.integer({ min: 0, max: 1000 }).map((thousandths) => thousandths / 1000);

/** Any layer that does not make light. */
const layer: fc.Arbitrary<Layer> = fc.tuple(share, share, share, share).map(([above, below, down, up]) => ({
  reflectanceAbove: above,
  reflectanceBelow: below,
  transmittanceDown: (1 - above) * down,
  transmittanceUp: (1 - below) * up,
}));

function expectSameLayer(actual: Layer, expected: Layer, tolerance: number): void {
  for (const key of [
    "reflectanceAbove",
    "reflectanceBelow",
    "transmittanceDown",
    "transmittanceUp",
  ] as const) {
    expect(Math.abs(actual[key] - expected[key]), key).toBeLessThanOrEqual(tolerance * (1 + expected[key]));
  }
}

describe("lay: published (seen: glass plate n = 1, 1.5, 1 in the tests of mitsuba3; R to 6 digits)", () => {
  it.each(FILMS_OF_GLASS)("two faces of %d reflect %d", (face, plate) => {
    const boundary: Layer = {
      reflectanceAbove: face,
      reflectanceBelow: face,
      transmittanceDown: 1 - face,
      transmittanceUp: 1 - face,
    };
    const both = lay(boundary, boundary);
    expect(Math.abs(both.reflectanceAbove - plate)).toBeLessThan(1e-6);
    expect(both.transmittanceDown + both.reflectanceAbove).toBeCloseTo(1, 14);
  });
});

describe("lay", () => {
  it("is associative: any two of three layers may be laid first", () => {
    fc.assert(
      fc.property(layer, layer, layer, (a, b, c) => {
        expectSameLayer(lay(lay(a, b), c), lay(a, lay(b, c)), 1e-12);
      }),
      { numRuns: 1000 },
    );
  });

  it("turned over is the layers turned over in the other order", () => {
    const turn = (l: Layer): Layer => ({
      reflectanceAbove: l.reflectanceBelow,
      reflectanceBelow: l.reflectanceAbove,
      transmittanceDown: l.transmittanceUp,
      transmittanceUp: l.transmittanceDown,
    });
    fc.assert(
      fc.property(layer, layer, (a, b) => expectSameLayer(turn(lay(a, b)), lay(turn(b), turn(a)), 1e-12)),
    );
  });

  it("two films of one paint are one film of both thicknesses", () => {
    fc.assert(
      fc.property(paintFilm, fc.integer({ min: 0, max: 100 }), ({ k, s, thickness }, percent) => {
        const upper = (thickness * percent) / 100;
        const whole = film(k, s, thickness);
        const split = lay(filmLayer(film(k, s, upper)), filmLayer(film(k, s, thickness - upper)));
        expectSameLayer(split, filmLayer(whole), 1e-13);
        if (whole.transmittance > 1e-290) {
          expect(relativeDifference(split.transmittanceDown, whole.transmittance)).toBeLessThan(1e-11);
        }
      }),
      { numRuns: 500 },
    );
  });
});

describe("stackReflectance", () => {
  it("of one film is the film over its backing; of none the backing", () => {
    fc.assert(
      fc.property(paintFilm, ({ k, s, thickness, backing }) => {
        const one = film(k, s, thickness);
        expect(stackReflectance([filmLayer(one)], backing)).toBe(overBacking(one, backing));
        expect(stackReflectance([], backing)).toBe(backing);
      }),
    );
  });

  it("of layers is that of the layers laid together", () => {
    fc.assert(
      fc.property(layer, layer, layer, share, (a, b, c, backing) => {
        const together = stackReflectance([lay(lay(a, b), c)], backing);
        expect(Math.abs(stackReflectance([a, b, c], backing) - together)).toBeLessThan(1e-12);
      }),
    );
  });

  it("under an air boundary is Saunderson's k1 + (1−k1)(1−k2)R/(1−k2R)", () => {
    fc.assert(
      fc.property(paintFilm, ({ k, s, thickness, backing }) => {
        const [k1, k2] = [0.04, 0.596];
        const one = film(k, s, thickness);
        const internal = overBacking(one, backing);
        const saunderson = k1 + ((1 - k1) * (1 - k2) * internal) / (1 - k2 * internal);
        const stacked = stackReflectance([airBoundary({ k1, k2 }), filmLayer(one)], backing);
        expect(relativeDifference(stacked, saunderson)).toBeLessThan(1e-15);
      }),
    );
  });

  it("never reflects more than it gets", () => {
    fc.assert(
      fc.property(fc.array(layer, { maxLength: 6 }), share, (layers, backing) => {
        const r = stackReflectance(layers, backing);
        expect(r).toBeGreaterThanOrEqual(0);
        expect(r).toBeLessThanOrEqual(1 + 1e-15);
      }),
      { numRuns: 500 },
    );
  });
});
