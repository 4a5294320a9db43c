import type { Observation } from "./observation.js";

/** A reading of reflectance at one geometry, from band `from` of the film on at every `stride`-th band: residual (R_read − R)/sd. */
export function reflectanceObservation(
  film: number,
  read: Float64Array,
  sd: number,
  {
    geometry = 0,
    stride = 1,
    from = 0,
  }: { readonly geometry?: number; readonly stride?: number; readonly from?: number } = {},
): Observation {
  const rows = Math.ceil(read.length / stride);
  return {
    films: [film],
    own: [],
    geometry,
    rows,
    look: ([reflectance]) => ({
      residual: Float64Array.from(
        { length: rows },
        (_, r) => (read[r * stride] - reflectance[from + r * stride]) / sd,
      ),
      carry: (_, change, span, out, to) => {
        const first = Math.max(0, Math.ceil((span.from - from) / stride));
        const end = Math.min(rows, Math.ceil((span.to - from) / stride));
        for (let r = first; r < end; r++) out[to + r] += change[from + r * stride] / sd;
      },
      byOwn: [],
    }),
  };
}
