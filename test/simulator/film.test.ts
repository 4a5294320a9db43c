import { describe, expect, it } from "vitest";
import { filmReflectance } from "./film.js";
import { mediumOf } from "./media.js";
import { createStreams } from "./streams.js";

const streams = createStreams(8, 1.5);

describe("a film under gloss", () => {
  it("gives all light back where neither film nor backing absorbs", () => {
    expect(filmReflectance(mediumOf(streams, 0, 90, 0.6), 0.1, 1, streams)).toBeCloseTo(1, 9);
  });

  it("keeps Judd's 0.596 of diffuse light inside at n = 1.5", () => {
    const { cosines, weights, mirrored, k1 } = createStreams(32, 1.5);
    const kept = cosines.reduce((sum, cosine, i) => sum + 2 * cosine * weights[i] * mirrored[i], 0);
    expect(kept).toBeCloseTo(0.5963, 3);
    expect(k1).toBeCloseTo(0.04, 12);
  });

  it("is the sum over echoes where nothing scatters", () => {
    const { cosines, weights, mirrored, k1 } = streams;
    const [depth, backing] = [0.3, 0.8];
    const over = (of: (i: number) => number) =>
      cosines.reduce((sum, cosine, i) => sum + 2 * cosine * weights[i] * of(i), 0);
    const out = over((i) => (1 - mirrored[i]) * Math.exp(-depth / cosines[i]));
    const back = over((i) => mirrored[i] * Math.exp((-2 * depth) / cosines[i]));
    const exact = k1 + ((1 - k1) * Math.exp(-depth) * backing * out) / (1 - backing * back);
    expect(filmReflectance(mediumOf(streams, 1, 0), depth, backing, streams)).toBeCloseTo(exact, 4);
  });

  it("meets Giovanelli's 0.2600: endless, n = 1.5, albedo 0.9, isotropic (value from memory)", () => {
    const fine = createStreams(16, 1.5);
    expect(filmReflectance(mediumOf(fine, 10, 90), 5, 0, fine)).toBeCloseTo(0.26, 3);
  });

  it("has no constant k2: dark and light films need surfaces that differ", () => {
    const k2For = (absorption: number) => {
      const bare = createStreams(8, 1);
      const inside = filmReflectance(mediumOf(bare, absorption, 1, 0.6), 1e4, 0, bare);
      const measured = filmReflectance(mediumOf(streams, absorption, 1, 0.6), 1e4, 0, streams);
      const below = measured - streams.k1;
      // Saunderson's formula solved for k2.
      return (below - (1 - streams.k1) * inside) / (below * inside - (1 - streams.k1) * inside);
    };
    expect(Math.abs(k2For(0.001) - k2For(0.5))).toBeGreaterThan(0.05);
  });
});
