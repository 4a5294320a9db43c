import type { ForwardModel } from "../../prediction/forwardModel.js";

/** Errors of reflectance over all geometries and bands, each one standard deviation long and independent of the rest. */
export type ReflectanceModes = readonly Float64Array[];

/** Smooth errors are so many cosines along the wavelengths, each with an equal share in the variance. */
const COSINES = 4;

/** Each band by itself. */
export function bandByBand({ coefficients: { size } }: ForwardModel, sd: number): ReflectanceModes {
  if (sd === 0) return [];
  return Array.from({ length: size }, (_, b) => {
    const mode = new Float64Array(size);
    mode[b] = sd;
    return mode;
  });
}

/** All bands of a geometry together, by `sd(b)`. */
export function allBands(model: ForwardModel, sd: (band: number) => number): ReflectanceModes {
  return cosines(model, 1, sd);
}

/** Any smooth error along the wavelengths of a geometry, of standard deviation `sd(b)` on average. */
export function smoothly(model: ForwardModel, sd: (band: number) => number): ReflectanceModes {
  return cosines(model, COSINES, sd);
}

function cosines(
  { geometries, set, coefficients: { size } }: ForwardModel,
  count: number,
  sd: (band: number) => number,
): ReflectanceModes {
  const bands = set.grid.count;
  return geometries.flatMap((_, g) =>
    Array.from({ length: count }, (_, k) => {
      const mode = new Float64Array(size);
      const height = Math.sqrt((k === 0 ? 1 : 2) / count);
      for (let b = 0; b < bands; b++) {
        mode[g * bands + b] = height * Math.cos((k * Math.PI * (b + 0.5)) / bands) * sd(g * bands + b);
      }
      return mode;
    }),
  );
}
