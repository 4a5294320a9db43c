import type { Estimate, SurfaceEstimate } from "./characterisation.js";
import type { CheckedJob } from "./job.js";
import type { Point, Unknowns } from "./unknowns.js";

/** A constant counts as determined if its sd is at most this share of the prior's. */
const TOLD = 0.5;

/** The fitted constants of the surfaces. */
export function surfaceEstimates(
  { surfaces }: CheckedJob,
  { surface, priorWeight, cells, size }: Unknowns,
  { border }: Point,
  variance: Float64Array,
): readonly SurfaceEstimate[] {
  return surface.map(({ geometry, what, place }) => {
    const sd = Math.sqrt(variance[cells * size + place]);
    const identifiable = sd * priorWeight[place] <= TOLD;
    return { geometry: surfaces[geometry].geometry, what, value: border[place], sd, identifiable };
  });
}

/** The fitted densities against the reference toner, by toner id. */
export function densityEstimates(
  { toners }: CheckedJob,
  { density, cells, size }: Unknowns,
  { border }: Point,
  variance: Float64Array,
): Readonly<Record<string, Estimate>> {
  return Object.fromEntries(
    toners.flatMap(({ id }, j) => {
      const place = density[j];
      if (place < 0) return [];
      const sdOfLog = Math.sqrt(variance[cells * size + place]);
      return [[id, { value: Math.exp(border[place]), sdOfLog }]];
    }),
  );
}
