import type { Grid } from "../../spectra/grid.js";

/**
 * Cosines over the grid of one geometry, zero elsewhere, that make a smooth random function when each is multiplied
 * by an independent standard normal number: mode m is cos(πm·t), t = 0…1 along the grid, of variance ∝ 1/(1 + (m/2)²)²,
 * scaled so that the function has the given sd on the average over the grid.
 */
export function smoothModes(
  grid: Grid,
  { geometries, modes, sd }: { readonly geometries: number; readonly modes: number; readonly sd: number },
): readonly Float64Array[] {
  const { count } = grid;
  const weights = Array.from({ length: modes }, (_, m) => 1 / (1 + (m / 2) ** 2));
  const shapes = weights.map((weight, m) =>
    Float64Array.from({ length: count }, (_, b) => weight * Math.cos((Math.PI * m * b) / (count - 1))),
  );
  const total = shapes.reduce((sum, shape) => sum + shape.reduce((all, value) => all + value * value, 0), 0);
  const scale = sd / Math.sqrt(total / count);
  return Array.from({ length: geometries }, (_, g) => g).flatMap((g) =>
    shapes.map((shape) => {
      const mode = new Float64Array(geometries * count);
      for (let b = 0; b < count; b++) mode[g * count + b] = scale * shape[b];
      return mode;
    }),
  );
}
