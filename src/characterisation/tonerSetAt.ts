import type { SpectraByGeometry, Toner } from "../toners/toner.js";
import type { TonerSet } from "../toners/tonerSet.js";
import type { CheckedJob } from "./job.js";
import type { Point, Unknowns } from "./unknowns.js";

/** The toner set at a point, on the surfaces of `job`, with the modes of its uncertainty. */
export function tonerSetAt(
  { grid, surfaces, toners }: CheckedJob,
  { size, orientation }: Unknowns,
  { local, border }: Point,
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
  const orientationOf = (j: number): Pick<Toner, "orientation"> => {
    const curves = surfaces.flatMap(({ geometry }, g) => {
      const place = orientation[j * surfaces.length + g];
      return place < 0 ? [] : [[geometry, { slope: border[place], bend: border[place + 1] }] as const];
    });
    return curves.length === 0 ? {} : { orientation: Object.fromEntries(curves) };
  };
  return {
    grid,
    surfaces,
    toners: toners.map((toner, j) => ({ ...toner, ...orientationOf(j), ...both(local, j, Math.exp) })),
    uncertainty: modes.map((mode) =>
      Object.fromEntries(toners.map(({ id }, j) => [id, both(mode, j, (value) => value)])),
    ),
  };
}
