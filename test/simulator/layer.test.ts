import { describe, expect, it } from "vitest";
import { reflectivity } from "../../src/optics/infiniteFilm.js";
import { hFunction } from "./chandrasekhar.js";
import { layerOf } from "./layer.js";
import { mediumOf } from "./media.js";
import type { Square } from "./square.js";
import { createStreams, type Streams } from "./streams.js";

/** Share of the light along stream `from` that leaves through a matrix into the hemisphere. */
function hemispherical(matrix: Square, { cosines, weights }: Streams, from: number): number {
  const size = cosines.length;
  const flux = (i: number) => 2 * cosines[i] * weights[i];
  return cosines.reduce((sum, _, i) => sum + flux(i) * matrix[i * size + from], 0) / flux(from);
}

const plain = createStreams(16, 1);
const NORMAL = 15;

describe("a layer of many streams", () => {
  it("meets van de Hulst's slab: depth 2, albedo 0.9, g = 0.75, lit along the normal (values from memory)", () => {
    const { reflected, transmitted } = layerOf(mediumOf(plain, 10, 90, 0.75), 0.02, plain);
    expect(hemispherical(reflected, plain, NORMAL)).toBeCloseTo(0.09739, 4);
    expect(hemispherical(transmitted, plain, NORMAL)).toBeCloseTo(0.66096, 4);
  });

  it.each([0.3, 0.9, 0.99])("a deep isotropic layer of albedo %f reflects 1 − √(1−ω)·H(μ)", (albedo) => {
    const h = hFunction(albedo);
    const { reflected } = layerOf(mediumOf(plain, 1 - albedo, albedo), 1000, plain);
    plain.cosines.forEach((cosine, i) => {
      const exact = 1 - Math.sqrt(1 - albedo) * h(cosine);
      expect(Math.abs(hemispherical(reflected, plain, i) - exact)).toBeLessThan(5e-4);
    });
  });

  it("the integral equation gives Chandrasekhar's table for ω = 1 (values from memory)", () => {
    const h = hFunction(1);
    expect([0.1, 0.5, 1].map(h).map((value) => value.toFixed(3))).toEqual(["1.247", "2.013", "2.908"]);
  });

  it.each([0, 0.3, 0.6, 0.9])("loses no light where nothing absorbs, g = %f", (g) => {
    for (const streams of [createStreams(8, 1.5), plain]) {
      const { reflected, transmitted } = layerOf(mediumOf(streams, 0, 3, g), 5, streams);
      streams.cosines.forEach((_, i) => {
        const both = hemispherical(reflected, streams, i) + hemispherical(transmitted, streams, i);
        expect(both).toBeCloseTo(1, 10);
      });
    }
  });

  it("is Beer's law along every stream where nothing scatters", () => {
    const { reflected, transmitted } = layerOf(mediumOf(plain, 2, 0), 0.7, plain);
    plain.cosines.forEach((cosine, i) => {
      expect(Math.abs(transmitted[i * 17] - Math.exp(-1.4 / cosine))).toBeLessThan(2e-4);
    });
    expect(Math.max(...reflected)).toBe(0);
  });

  it("is reciprocal: from i to j as from j to i", () => {
    const { reflected } = layerOf(mediumOf(plain, 0.2, 1, 0.5), 3, plain);
    const { cosines, weights } = plain;
    const symmetric = (i: number, j: number) => (reflected[i * 16 + j] * cosines[i]) / weights[j];
    for (let i = 0; i < 16; i++) {
      for (let j = 0; j < i; j++) expect(symmetric(i, j) / symmetric(j, i)).toBeCloseTo(1, 8);
    }
  });

  it.each([0, 0.6])(
    "nears Kubelka and Munk with K = 2a, S = ¾(1 − g)s where little is absorbed, g = %f",
    (g) => {
      const streams = createStreams(8, 1);
      const lossTo = (absorption: number) => {
        const { reflected } = layerOf(mediumOf(streams, absorption, 1, g), 1e6, streams);
        const { cosines, weights } = streams;
        const lost = (i: number) => 1 - hemispherical(reflected, streams, i);
        const many = cosines.reduce((sum, cosine, i) => sum + 2 * cosine * weights[i] * lost(i), 0);
        return many / (1 - reflectivity(2 * absorption, 0.75 * (1 - g)));
      };
      expect(Math.abs(lossTo(1e-6) - 1)).toBeLessThan(0.003);
      expect(Math.abs(lossTo(0.3) - 1)).toBeGreaterThan(0.005);
    },
  );

  it("does not depend on the thickness of the first layer", () => {
    const medium = mediumOf(plain, 0.3, 1, 0.4);
    // Just under and just over a power of two of the first depth: twice as many halvings.
    const [under, over] = [1.999, 2.001].map((factor) => {
      const depth = (factor * 0.1 * Math.min(...plain.cosines) * 2 ** 8) / 1.3;
      return hemispherical(layerOf(medium, depth, plain).transmitted, plain, NORMAL) * Math.exp(depth);
    });
    expect(under / over).toBeCloseTo(1, 2);
  });
});
