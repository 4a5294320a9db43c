import type { Grams } from "../../src/toners/pot.js";
import { filmReflectance } from "./film.js";
import { GRID, PIGMENTS } from "./pigments.js";
import { createStreams, henyeyGreenstein } from "./streams.js";

/** A paint as it truly is: grams by toner id, each with what its can and the sun have made of it. */
export interface Paint {
  readonly grams: Grams;
  /** Strength of the cans it was poured from, by toner id; 1 where absent. */
  readonly strengths?: Grams;
  /** Share of the absorption left by the sun, by toner id; 1 where absent. Half as much of the scattering goes. */
  readonly left?: Grams;
  /** Absorption at 400 nm that ageing has given to the film, in the unit of white's S. */
  readonly yellowing?: number;
}

/** A film as sprayed: depth in the unit of 1 ÷ white's S at 550 nm, over a matt backing. */
export interface Film {
  readonly depth: number;
  readonly backing: number;
}

/** Physics that no Kubelka–Munk toner knows of. */
export interface PaintPhysics {
  /** Streams of light in the film, both hemispheres having as many; even. */
  readonly streams: number;
  readonly index: number;
  /** White's scattering per gram falls by this share from alone in much binder to a film of nothing but white. */
  readonly crowding: number;
}

export const PAINT_PHYSICS: PaintPhysics = Object.freeze({ streams: 8, index: 1.5, crowding: 0.25 });

/**
 * Reflectance of a film of paint, d:8 with the specular part included, band by band: radiative transfer with
 * absorption K/2 and reduced scattering 4S/3 (where the diffusion limit of isotropic scattering meets Kubelka–Munk),
 * every toner with its own asymmetry, and white that crowds itself.
 */
export type PaintReader = (paint: Paint, film: Film) => readonly number[];

export function createPaintReader({ streams: count, index, crowding }: PaintPhysics): PaintReader {
  const streams = createStreams(count, index);
  const scatterings = PIGMENTS.map(({ g }) => henyeyGreenstein(streams, g));
  return ({ grams, strengths = {}, left = {}, yellowing = 0 }, { depth, backing }) => {
    const total = PIGMENTS.reduce((sum, { id }) => sum + (grams[id] ?? 0), 0);
    const shares = PIGMENTS.map(({ id }) => ((grams[id] ?? 0) / total) * (strengths[id] ?? 1));
    const remains = PIGMENTS.map(({ id }) => left[id] ?? 1);
    return Array.from({ length: GRID.count }, (_, band) => {
      let absorption = (yellowing * Math.exp(-(band * GRID.step) / 45)) / 2;
      let scattering = 0;
      const on = new Float64Array(count * count);
      const back = new Float64Array(count * count);
      PIGMENTS.forEach(({ role, k, s, g }, j) => {
        if (shares[j] === 0) return;
        const crowded = role === "white" ? 1 - crowding * Math.min(1, shares[j]) : 1;
        absorption += (shares[j] * remains[j] * k[band]) / 2;
        const reduced = (4 / 3) * shares[j] * crowded * ((1 + remains[j]) / 2) * s[band];
        const kept = (scatterings[j].kept * reduced) / (1 - g);
        scattering += kept;
        for (let at = 0; at < on.length; at++) {
          on[at] += kept * scatterings[j].on[at];
          back[at] += kept * scatterings[j].back[at];
        }
      });
      return filmReflectance({ absorption, scattering, on, back }, depth, backing, streams);
    });
  };
}
