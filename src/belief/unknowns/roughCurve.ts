import type { Grid } from "../../spectra/grid.js";

/** Wavelength over which what a model misses stays alike, nm. Found on measured ladders (docs/evidence.md). */
const LENGTH_NM = 60;

/** Waves beyond this carry less than 0.2 % of the variance. */
const WAVES_PER_LENGTH = 3.2;

/**
 * Independent shapes whose sum, each times a standard normal number, is a rough curve of sd 1 over the grid: cosines
 * cos(πm(b + ½)/n), m = 0 … M, with the spectral density of a Matérn-3/2 process of length ℓ = 60 nm as variance,
 * (1 + (ωℓ)²/3)⁻², ω = πm/range. As many waves as the range has lengths, times 3.2: fewer are too smooth, and what they
 * cannot follow inflates every other size. Source: Rasmussen & Williams 2006, §4.2; Solin & Särkkä 2020.
 */
export function roughCurve({ step, count }: Grid): readonly Float64Array[] {
  const range = count * step;
  const waves = Math.min(count - 1, Math.ceil((WAVES_PER_LENGTH * range) / LENGTH_NM));
  const shapes = Array.from({ length: waves + 1 }, (_, m) => {
    const density = 1 + (Math.PI * m * LENGTH_NM) ** 2 / (3 * range * range);
    const height = Math.sqrt(m === 0 ? 1 : 2) / density;
    return Float64Array.from(
      { length: count },
      (_, b) => height * Math.cos((Math.PI * m * (b + 0.5)) / count),
    );
  });
  const variance = shapes.reduce((sum, shape) => sum + shape.reduce((all, h) => all + h * h, 0), 0) / count;
  const scale = 1 / Math.sqrt(variance);
  return shapes.map((shape) => shape.map((height) => scale * height));
}
