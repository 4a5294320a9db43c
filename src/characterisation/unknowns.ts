import type { Surface } from "../surface/surface.js";
import type { SurfaceConstant } from "./characterisationOptions.js";
import type { Observations } from "./observations.js";

/** Where every unknown stands. Blocks: cell (geometry·bands + band) → ln K of all toners, ln S of all toners. */
export interface Unknowns {
  readonly cells: number;
  /** 2 × toners */
  readonly size: number;
  readonly border: number;
  /** By film, the place in the border of ln thickness and of the first ln share; −1 where it is known. */
  readonly thickness: Int32Array;
  readonly shares: Int32Array;
  /** By toner, the place of ln density against the reference toner; −1 where it is known. */
  readonly density: Int32Array;
  readonly surface: readonly FittedConstant[];
  /** Prior of every border unknown: mean, and 1/sd. */
  readonly priorMean: Float64Array;
  readonly priorWeight: Float64Array;
  /** ln of one optical unit per mean film, about which ln K and ln S are sought. */
  readonly level: number;
  /** What fixes the common scale of K and S. */
  readonly gauge: "mean film" | "reference toner" | "measured thickness";
}

export interface FittedConstant {
  readonly geometry: number;
  readonly what: SurfaceConstant;
  readonly place: number;
}

/** A point: the blocks, and the border. */
export interface Point {
  readonly local: Float64Array;
  readonly border: Float64Array;
}

/** How far the constants of a surface may be from what was given (design values: n = 1.5 ± 0.1 and more). */
const SURFACE_SD = { k1: 0.02, k2: 0.1, specularRest: 0.5 } as const;

export function layOutUnknowns({
  films,
  tonerCount,
  surfaces,
  grid,
  reference,
  logDensity,
  options,
}: Observations): Unknowns {
  const mean: number[] = [];
  const weight: number[] = [];
  const unknown = (at: number, sd: number): number => {
    mean.push(at);
    weight.push(1 / sd);
    return mean.length - 1;
  };
  const finite = films.filter(({ isOpaque }) => !isOpaque);
  const measured = finite.flatMap(({ thickness }) => (thickness === undefined ? [] : [Math.log(thickness)]));
  const meanFilm = measured.length > 0 ? measured.reduce((sum, x) => sum + x, 0) / measured.length : 0;

  const thickness = Int32Array.from(films, (film) => {
    if (film.isOpaque) return -1;
    if (film.thickness === undefined) return unknown(meanFilm, options.thicknessSd);
    if (options.measuredThicknessSd === 0) return -1;
    return unknown(Math.log(film.thickness), options.measuredThicknessSd);
  });
  const shares = Int32Array.from(films, ({ shareSd }) => {
    if (shareSd.length < 2 || shareSd.every((sd) => sd === 0)) return -1;
    const first = mean.length;
    for (const sd of shareSd) unknown(0, Math.max(sd, 1e-6));
    return first;
  });
  const density = Int32Array.from({ length: tonerCount }, (_, j) =>
    options.densitySd > 0 && finite.length > 0 && j !== reference && Number.isNaN(logDensity[j])
      ? unknown(0, options.densitySd)
      : -1,
  );
  const surface = surfaces.flatMap((given, geometry) =>
    options.fitSurface.map((what) => ({
      geometry,
      what,
      place: unknown(given[what] ?? 0, SURFACE_SD[what]),
    })),
  );
  return {
    cells: surfaces.length * grid.count,
    size: 2 * tonerCount,
    border: mean.length,
    thickness,
    shares,
    density,
    surface,
    priorMean: Float64Array.from(mean),
    priorWeight: Float64Array.from(weight),
    level: -meanFilm,
    gauge: finite.length === 0 ? "reference toner" : measured.length > 0 ? "measured thickness" : "mean film",
  };
}

/** The surfaces at a point. */
export function surfacesAt(
  surfaces: readonly Surface[],
  unknowns: Unknowns,
  border: Float64Array,
): readonly Surface[] {
  return surfaces.map((surface, g) => ({
    ...surface,
    ...Object.fromEntries(
      unknowns.surface
        .filter(({ geometry }) => geometry === g)
        .map(({ what, place }) => [what, border[place]]),
    ),
  }));
}
