import type { SpectraByGeometry } from "../toners/toner.js";
import type { TonerSet } from "../toners/tonerSet.js";
import type { CheckedJob } from "./job.js";
import type { Point, Unknowns } from "./unknowns.js";

/** The toner set at a point, on the surfaces of `job`, with the modes of its uncertainty. */
export function tonerSetAt(
  { grid, surfaces, toners }: CheckedJob,
  { size }: Unknowns,
  { local }: Point,
  modes: readonly Float64Array[],
): TonerSet {
  const spectra = (values: Float64Array, place: number, of: (value: number) => number): SpectraByGeometry =>
    Object.fromEntries(
      surfaces.map(({ geometry }, g) => [
        geometry,
        Array.from({ length: grid.count }, (_, band) => of(values[(g * grid.count + band) * size + place])),
      ]),
    );
  const both = (values: Float64Array, j: number, of: (value: number) => number) => ({
    k: spectra(values, j, of),
    s: spectra(values, toners.length + j, of),
  });
  return {
    grid,
    surfaces,
    toners: toners.map((toner, j) => ({ ...toner, ...both(local, j, Math.exp) })),
    uncertainty: modes.map((mode) =>
      Object.fromEntries(toners.map(({ id }, j) => [id, both(mode, j, (value) => value)])),
    ),
  };
}
