import type { Observation } from "./observation.js";

/** A reading of reflectance, band by band: residual (R_read − R)/sd. */
export function reflectanceObservation(film: number, read: Float64Array, sd: number): Observation {
  return {
    film,
    rows: read.length,
    look: (reflectance) => ({
      residual: read.map((value, b) => (value - reflectance[b]) / sd),
      carry: (change, at, out, to) => {
        for (let b = 0; b < read.length; b++) out[to + b] = change[at + b] / sd;
      },
    }),
  };
}
