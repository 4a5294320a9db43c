import type { Observation } from "./observation.js";

/** A reading of reflectance at every `stride`-th band: residual (R_read − R)/sd. */
export function reflectanceObservation(
  film: number,
  read: Float64Array,
  sd: number,
  stride = 1,
): Observation {
  const rows = Math.ceil(read.length / stride);
  return {
    film,
    rows,
    look: (reflectance) => ({
      residual: Float64Array.from(
        { length: rows },
        (_, r) => (read[r * stride] - reflectance[r * stride]) / sd,
      ),
      carry: (change, at, out, to) => {
        for (let r = 0; r < rows; r++) out[to + r] = change[at + r * stride] / sd;
      },
    }),
  };
}
