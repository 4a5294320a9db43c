import { wavelengths } from "../spectra/grid.js";
import { surfaceTerms } from "../surface/saunderson.js";
import type { NotIdentifiable, TonerQuality } from "./characterisation.js";
import type { CheckedJob } from "./job.js";
import type { Observations } from "./observations.js";
import type { Point, Unknowns } from "./unknowns.js";

/** Sd of a logarithm above which a value is not told: it may be half or double. */
const LARGEST_SD = Math.LN2;
/** Readings less than this above the surface's own reflection are too dark to tell K from S. */
const DARK = 0.005;
/** Contrast of two backings, in reflectance, below which a film hides. */
const HIDING = 0.005;
/** K or S of this share of the other changes no reading. */
const NEGLIGIBLE = 0.02;

/** Standard deviations of ln K and ln S of every toner at every geometry, and why where they cannot be told. */
export function tonerQuality(
  job: CheckedJob,
  observations: Observations,
  unknowns: Unknowns,
  point: Point,
  variance: Float64Array,
): readonly TonerQuality[] {
  const { grid, tonerCount } = observations;
  const nm = wavelengths(grid);
  return job.toners.flatMap(({ id }, j) =>
    job.surfaces.map(({ geometry }, g) => {
      const places = (what: "k" | "s") =>
        Array.from({ length: grid.count }, (_, band) => {
          const cell = g * grid.count + band;
          return cell * unknowns.size + j + (what === "k" ? 0 : tonerCount);
        });
      const sds = (what: "k" | "s") => places(what).map((place) => Math.sqrt(variance[place]));
      const untold = (["k", "s"] as const).flatMap((what) => {
        const byReason = new Map<NotIdentifiable, number[]>();
        sds(what).forEach((sd, band) => {
          if (sd <= LARGEST_SD) return;
          const k = Math.exp(point.local[places("k")[band]]);
          const s = Math.exp(point.local[places("s")[band]]);
          const reason = reasonFor(observations, { toner: j, geometry: g, band, what, k, s });
          byReason.set(reason, [...(byReason.get(reason) ?? []), nm[band]]);
        });
        return Array.from(byReason, ([reason, wavelengths]) => ({ what, wavelengths, reason }));
      });
      return { id, geometry, sdOfLogK: sds("k"), sdOfLogS: sds("s"), notIdentifiable: untold };
    }),
  );
}

interface Case {
  readonly toner: number;
  readonly geometry: number;
  readonly band: number;
  readonly what: "k" | "s";
  readonly k: number;
  readonly s: number;
}

function reasonFor(
  { films, readings, surfaces }: Observations,
  { toner, geometry, band, what, k, s }: Case,
): NotIdentifiable {
  const own = readings.filter((r) => r.geometry === geometry && films[r.film].toners.includes(toner));
  const { offset } = surfaceTerms(surfaces[geometry]);
  if (own.every(({ measured }) => measured[band] < offset + DARK)) return "too dark";
  if (what === "s" && s < NEGLIGIBLE * k) return "does not scatter";
  if (what === "k" && k < NEGLIGIBLE * s) return "does not absorb";
  const hides = (film: number) => {
    const values = own.filter((r) => r.film === film).map(({ measured }) => measured[band]);
    return Math.max(...values) - Math.min(...values) < HIDING;
  };
  const holding = new Set(own.map(({ film }) => film));
  return Array.from(holding).every(hides) ? "hides fully" : "too few samples";
}
