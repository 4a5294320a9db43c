import type { Square } from "../simulator/square.js";
import type { Directions } from "./directions.js";

/** Flat particles lying in a film: aluminium flake, or interference platelets that let by what they do not mirror. */
export interface Flakes {
  /** Their area projected on the film, per unit of build. */
  readonly area: number;
  /** Root mean square slope of their tilts. */
  readonly width: number;
  /** Share of them that lies three times as unevenly. */
  readonly unruly: number;
  /** Share that is mirrored where light meets them at this cosine to their own normal. */
  readonly mirror: (cosine: number) => number;
  /** Whether what is not mirrored goes through; else it is absorbed. */
  readonly isClear: boolean;
}

/** What flakes do to light per unit of build. */
export interface FlakeOptics {
  /** How much of a direction they take. */
  readonly extinction: Float64Array;
  /** By azimuthal mode: from direction j (column, with its weight) to i (row), on in the same sense and back. */
  readonly modes: readonly { readonly on: Square; readonly back: Square }[];
}

const UNRULY_WIDTH = 3;
const STEPS = 48;

/** Density of normals by area projected on the film: Gaussian in slope with a wider tail, ∫D cos t = 1 over a half. */
function tiltDensity(cosine: number, { width, unruly }: Flakes): number {
  if (cosine < 1e-6) return 0;
  const squareSlope = 1 / (cosine * cosine) - 1;
  const gaussian = (w: number) => Math.exp(-squareSlope / (2 * w * w)) / (2 * Math.PI * w * w * cosine ** 4);
  return (1 - unruly) * gaussian(width) + unruly * gaussian(UNRULY_WIDTH * width);
}

/**
 * A flake of normal m takes |w·m| of a beam w and mirrors it: light sent from w to w′ met a normal along w′ − w, and
 * there are area·D·r/4 of them per solid angle of w′. What is taken is the sum of what is sent over the directions'
 * own rule, with r = 1 for opaque flakes: so no light is lost to the rule.
 */
export function flakeOptics(flakes: Flakes, { cosines, weights }: Directions, modes: number): FlakeOptics {
  const { area, mirror, isClear } = flakes;
  const size = cosines.length;
  const found = Array.from({ length: modes }, () => ({
    on: new Float64Array(size * size),
    back: new Float64Array(size * size),
  }));
  const extinction = new Float64Array(size);
  if (area === 0) return { extinction, modes: found };
  const angles = Array.from({ length: STEPS }, (_, a) => (Math.PI * (a + 0.5)) / STEPS);
  const turned = angles.map(Math.cos);
  const waves = Array.from({ length: modes }, (_, m) => angles.map((angle) => Math.cos(m * angle)));
  const sent = new Float64Array(STEPS);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      const across = Math.sqrt((1 - cosines[i] ** 2) * (1 - cosines[j] ** 2));
      for (const [key, sense] of [
        ["on", 1],
        ["back", -1],
      ] as const) {
        const rise = Math.abs(cosines[i] - sense * cosines[j]);
        let taken = 0;
        for (let a = 0; a < STEPS; a++) {
          // |w′ − w|; half of it is the cosine at which light met the flake.
          const squared = 2 - 2 * (sense * cosines[i] * cosines[j] + across * turned[a]);
          const length = Math.sqrt(Math.max(0, squared));
          const met = length < 1e-6 ? 0 : (area / 4) * tiltDensity(Math.min(1, rise / length), flakes);
          sent[a] = met === 0 ? 0 : met * mirror(length / 2);
          taken += isClear ? sent[a] : met;
        }
        // 2π times the mean over azimuth.
        const ring = (2 * Math.PI) / STEPS;
        extinction[j] += ring * taken * weights[i];
        if (i !== j) extinction[i] += ring * taken * weights[j];
        for (let m = 0; m < modes; m++) {
          let sum = 0;
          for (let a = 0; a < STEPS; a++) sum += sent[a] * waves[m][a];
          found[m][key][i * size + j] = ring * sum * weights[j];
          found[m][key][j * size + i] = ring * sum * weights[i];
        }
      }
    }
  }
  return { extinction, modes: found };
}
