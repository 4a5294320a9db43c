import { describe, expect, it } from "vitest";
import { diffuseInternalReflectance, fresnelReflectance } from "../../src/surface/fresnel.js";
import { COMPUTED_FILMS } from "./computedFilms.js";
import { createDirections } from "./directions.js";
import { type PaintLayer, reflectanceFactors, stackOf, upwards } from "./film.js";
import { type Flakes, flakeOptics } from "./flakes.js";

const MODES = 16;
const directions = createDirections();

const flakes = (part: Partial<Flakes>) =>
  flakeOptics(
    { area: 6, width: 0.1, unruly: 0.12, mirror: () => 1, isClear: false, ...part },
    directions,
    MODES,
  );

/** Share of the beam that comes out again: what the boundary mirrors outside counts as out. */
function given(layers: readonly PaintLayer[], ground: number): number {
  const { cosines, weights, mirrored, beam } = directions;
  const up = upwards(stackOf(layers, ground, 0, directions), directions);
  const out = cosines.map((cosine, i) => 2 * Math.PI * cosine * weights[i] * (1 - mirrored[i]) * up[i]);
  return out.reduce((sum, flux) => sum + flux, 1 - beam.enters);
}

describe("a film with flakes", () => {
  it.each(COMPUTED_FILMS)(
    "comes within 3 standard errors of Monte Carlo or 1 %, and within 1 % of other ordinates: area $area, width $width, $absorption, $scattering",
    ({ absorption, scattering, area, width, reflect, build, ground, ordinates, carlo, errors }) => {
      const layer = {
        absorption,
        scattering,
        flakes: [flakes({ area, width, mirror: () => reflect })],
        build,
      };
      const found = reflectanceFactors([layer], ground, directions, MODES);
      found.forEach((factor, v) => {
        expect(Math.abs(factor - carlo[v])).toBeLessThan(Math.max(3 * errors[v], 0.01 * carlo[v]));
        expect(Math.abs(factor / ordinates[v] - 1)).toBeLessThan(0.01);
      });
    },
  );

  it("loses no light where nothing absorbs, with mirrors, platelets and pigment", () => {
    const layer = (part: Partial<Flakes>) => ({
      absorption: 0,
      scattering: 2,
      flakes: [flakes(part)],
      build: 1,
    });
    expect(given([layer({})], 1)).toBeCloseTo(1, 3);
    expect(given([layer({ isClear: true, mirror: (cosine) => 0.2 + 0.5 * cosine })], 1)).toBeCloseTo(1, 3);
    expect(given([layer({ isClear: true, mirror: () => 0.4 }), layer({ width: 0.2 })], 1)).toBeCloseTo(1, 3);
    expect(given([layer({ mirror: () => 0.9 })], 1)).toBeLessThan(0.95);
  });

  it("is reciprocal in every mode, a stack of unlike layers over a ground too", () => {
    const layers = [
      { absorption: 0.5, scattering: 1, flakes: [flakes({ mirror: () => 0.88 })], build: 0.5 },
      { absorption: 0.1, scattering: 3, flakes: [flakes({ width: 0.2, isClear: true })], build: 0.7 },
    ];
    const { cosines, weights } = directions;
    const size = cosines.length;
    for (const mode of [0, 1, 7]) {
      const stack = stackOf(layers, 0.4, mode, directions);
      const both = (i: number, j: number) => (stack[i * size + j] * cosines[i]) / weights[j];
      for (let i = 0; i < size; i++) {
        for (let j = 0; j < i; j++) expect(both(i, j)).toBeCloseTo(both(j, i), 9);
      }
    }
  });

  it("is the matt ground under gloss where there is no paint", () => {
    const ground = 0.6;
    const found = reflectanceFactors([], ground, directions, 3);
    const inside = ground / (1 - diffuseInternalReflectance(1.5) * ground);
    [60, 30, 20, 0, 30, 65].forEach((degrees, v) => {
      const leaves = 1 - fresnelReflectance(Math.cos((degrees * Math.PI) / 180), 1.5);
      const exact = (directions.beam.enters * leaves * inside) / 1.5 ** 2;
      // A rule of 16 nodes keeps k2 to some 0.001.
      expect(found[v] / exact).toBeCloseTo(1, 2);
    });
  });

  it("nears a Lambertian where a deep film scatters all and has no flakes", () => {
    const layer = { absorption: 0, scattering: 400, flakes: [flakes({ area: 0 })], build: 1 };
    const found = reflectanceFactors([layer], 1, directions, 2);
    [60, 30, 20, 0, 30, 65].forEach((degrees, v) => {
      const leaves = 1 - fresnelReflectance(Math.cos((degrees * Math.PI) / 180), 1.5);
      // All that enters leaves: inside ÷ (1 − k2) with what the boundary lets by.
      const exact = (directions.beam.enters * leaves) / (1.5 ** 2 * (1 - diffuseInternalReflectance(1.5)));
      expect(Math.abs(found[v] / exact - 1)).toBeLessThan(0.15);
    });
  });

  it("darkens the face and lightens the flop where the flakes lie less flat", () => {
    const at = (width: number) =>
      reflectanceFactors(
        [{ absorption: 0.5, scattering: 0.5, flakes: [flakes({ width, mirror: () => 0.88 })], build: 1 }],
        0.3,
        directions,
        MODES,
      );
    const [flat, uneven] = [at(0.1), at(0.115)];
    expect(uneven[1]).toBeLessThan(flat[1]);
    expect(uneven[3]).toBeGreaterThan(flat[3]);
    expect(uneven[5]).toBeGreaterThan(flat[5]);
  });

  it("two layers of one paint are one of both builds", () => {
    const layer = (build: number) => ({ absorption: 0.5, scattering: 0.5, flakes: [flakes({})], build });
    const once = reflectanceFactors([layer(1)], 0.3, directions, MODES);
    const twice = reflectanceFactors([layer(0.4), layer(0.6)], 0.3, directions, MODES);
    twice.forEach((factor, v) => {
      expect(factor / once[v]).toBeCloseTo(1, 3);
    });
  });
});
