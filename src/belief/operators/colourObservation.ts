import { colourSlopes } from "../colourSlopes.js";
import type { SeenColour } from "../prior.js";
import type { Unknown } from "../unknown.js";
import { BIAS_SD } from "../unknowns/instrument.js";
import type { Observation } from "./observation.js";

/** A colour without its spectrum: residual (Lab_seen − Lab(R) − bias)/sd, the bias being one for all that the instrument saw. */
export function colourObservation(
  film: number,
  { geometry, tristimulus, lab: seen, sd }: SeenColour,
  instrument: readonly Unknown[],
): Observation {
  const bands = tristimulus.grid.count;
  const from = geometry * bands;
  return {
    films: [film],
    own: instrument,
    geometry,
    rows: 3,
    look: ([reflectance], bias) => {
      const { lab, by } = colourSlopes(reflectance.subarray(from, from + bands), tristimulus);
      return {
        residual: Float64Array.from(seen, (value, axis) => (value - lab[axis] - BIAS_SD * bias[axis]) / sd),
        carry: (_, change, span, out, to) => {
          const [first, end] = [Math.max(0, span.from - from), Math.min(bands, span.to - from)];
          for (let axis = 0; axis < 3; axis++) {
            let sum = 0;
            for (let b = first; b < end; b++) sum += by[axis * bands + b] * change[from + b];
            out[to + axis] += sum / sd;
          }
        },
        byOwn: instrument.map((_, axis) =>
          Float64Array.from({ length: 3 }, (__, row) => (row === axis ? BIAS_SD / sd : 0)),
        ),
      };
    },
  };
}
