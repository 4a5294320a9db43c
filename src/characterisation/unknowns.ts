import { sum } from "../core/sum.js";
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
  /** By film, the place of its spray state x, ln width of tilts against the ladder's; −1 where nothing in it tilts. */
  readonly spray: Int32Array;
  /** By toner and geometry (`[j·geometries + g]`), the place of the slope of its tilt curve, the bend next; −1 where not sought. */
  readonly orientation: Int32Array;
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

/** How far spraying repeats, as ln width of tilts: common practice, no source. */
const LADDER_SD = 0.02;
/** What "flatter" and "steeper" are taken for, which sets the scale of x (our convention). */
const TURNED = { flatter: -0.15, steeper: 0.15 } as const;
const TURNED_SD = 0.07;
/** White tilts flake, by about so much times its share of the paint (a world of other physics has 1.5). */
const WHITE_TILT_SD = 1;
/** Of tilt curves: so wide that films decide (design values; a study found slopes up to 3, bends up to 4). */
const TILT_SD = { slope: 3, bend: 3 } as const;

export function layOutUnknowns({
  films,
  tonerCount,
  tilting,
  whites,
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
  const meanFilm = measured.length > 0 ? sum(measured) / measured.length : 0;

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
  // What the model misses of a film is alike at all its bands: they count as one against what is known of spraying.
  const bands = Math.sqrt(surfaces.length * grid.count);
  const spray = Int32Array.from(films, ({ toners, shares: parts, spray: way }) => {
    if (!toners.some((j) => tilting.includes(j))) return -1;
    const white = parts.reduce((sum, part, c) => sum + (whites.includes(toners[c]) ? part : 0), 0);
    const sd = Math.hypot(way === "as the ladder" ? LADDER_SD : TURNED_SD, WHITE_TILT_SD * white);
    return unknown(way === "as the ladder" ? 0 : TURNED[way], sd / bands);
  });
  const orientation = Int32Array.from({ length: tonerCount * surfaces.length }, (_, i) => {
    if (!tilting.includes(Math.floor(i / surfaces.length))) return -1;
    const slope = unknown(0, TILT_SD.slope / bands);
    unknown(0, TILT_SD.bend / bands);
    return slope;
  });
  return {
    cells: surfaces.length * grid.count,
    size: 2 * tonerCount,
    border: mean.length,
    thickness,
    shares,
    density,
    surface,
    spray,
    orientation,
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
