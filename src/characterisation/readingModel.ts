import { filmGradient } from "../optics/filmGradient.js";
import { attenuation, reflectivity } from "../optics/infiniteFilm.js";
import {
  internalReflectance,
  measuredReflectance,
  measuredSlope,
  type SurfaceTerms,
  surfaceTerms,
} from "../surface/saunderson.js";
import { tilted, tiltedSlope } from "../toners/orientation.js";
import type { Observation, Observations } from "./observations.js";
import { type Point, surfacesAt, type Unknowns } from "./unknowns.js";

/** A modelled reflectance and its slopes, by place in the block of its band and in the border. */
export interface Row {
  reflectance: number;
  readonly places: Int32Array;
  readonly slopes: Float64Array;
  count: number;
  readonly borderPlaces: Int32Array;
  readonly borderSlopes: Float64Array;
  borderCount: number;
}

/** Models one reading at one band at the point it was made for. */
export type ReadingModel = (reading: Observation, band: number, into: Row) => void;

export function createRow(unknowns: Unknowns): Row {
  const { size, border } = unknowns;
  return {
    reflectance: 0,
    places: new Int32Array(size),
    slopes: new Float64Array(size),
    count: 0,
    borderPlaces: new Int32Array(border),
    borderSlopes: new Float64Array(border),
    borderCount: 0,
  };
}

/** Half the step of the differences that stand for the slopes of the three terms of a surface. */
const SURFACE_STEP = 1e-5;

interface FittedTerms {
  readonly place: number;
  readonly below: SurfaceTerms;
  readonly above: SurfaceTerms;
}

/**
 * K = Σ wⱼKⱼ, S = Σ wⱼSⱼ over the shares of mass w of the film; amount per area = thickness / Σ(wⱼ/ρⱼ), so that dense
 * paint makes a film of the same thickness richer; over its backing (or R∞), seen through the surface. The bare
 * backing is taken to lie under the same surface. Slopes with respect to ln Kⱼ, ln Sⱼ, ln thickness, ln shares,
 * ln densities ρ, the fitted constants of the surface, spray states and tilt curves. Sources: as `filmGradient`, `surfaceTerms`.
 */
export function createReadingModel(
  { films, surfaces, tonerCount, grid, logDensity }: Observations,
  unknowns: Unknowns,
  { local, border }: Point,
): ReadingModel {
  const here = surfacesAt(surfaces, unknowns, border);
  const terms = here.map(surfaceTerms);
  const fitted = here.map((surface, g): readonly FittedTerms[] =>
    unknowns.surface
      .filter(({ geometry }) => geometry === g)
      .map(({ what, place }) => {
        const moved = (by: number) => surfaceTerms({ ...surface, [what]: border[place] + by });
        return { place, below: moved(-SURFACE_STEP), above: moved(SURFACE_STEP) };
      }),
  );

  /** Volume of a unit of mass of every toner, against the reference. */
  const volumes = logDensity.map((known, j) => {
    const place = unknowns.density[j];
    return Math.exp(-(place >= 0 ? border[place] : known || 0));
  });

  /** Slopes by spray state and tilt curves; `slopes` holds outside·byS·share·S of every component already. */
  const addSpray = (into: Row, { film, geometry }: Observation, x: number): void => {
    const { toners } = films[film];
    let byX = 0;
    for (let c = 0; c < toners.length; c++) {
      const place = unknowns.orientation[toners[c] * surfaces.length + geometry];
      if (place < 0) continue;
      const byLogS = into.slopes[toners.length + c];
      addBorder(into, place, byLogS * x);
      addBorder(into, place + 1, byLogS * x * x);
      byX += byLogS * tiltedSlope({ slope: border[place], bend: border[place + 1] }, x);
    }
    addBorder(into, unknowns.spray[film], byX);
  };

  return (reading, band, into) => {
    const { toners, shares, thickness: known = 1 } = films[reading.film];
    const start = (reading.geometry * grid.count + band) * unknowns.size;
    const shareAt = unknowns.shares[reading.film];
    const thicknessAt = unknowns.thickness[reading.film];
    const surface = terms[reading.geometry];

    const sprayAt = unknowns.spray[reading.film];
    const x = sprayAt < 0 ? 0 : border[sprayAt];
    /** Factor on S of every component by the lie of its flakes. */
    const lie = (c: number) => {
      const curveAt = sprayAt < 0 ? -1 : unknowns.orientation[toners[c] * surfaces.length + reading.geometry];
      return curveAt < 0 ? 1 : Math.exp(tilted({ slope: border[curveAt], bend: border[curveAt + 1] }, x));
    };

    let k = 0;
    let s = 0;
    let total = 0;
    let volume = 0;
    for (let c = 0; c < toners.length; c++) {
      const share = shareAt < 0 ? shares[c] : shares[c] * Math.exp(border[shareAt + c]);
      const place = start + toners[c];
      k += share * Math.exp(local[place]);
      s += share * Math.exp(local[place + tonerCount]) * lie(c);
      total += share;
      volume += share * volumes[toners[c]];
    }
    k /= total;
    s /= total;
    volume /= total;

    let internal: number;
    let byK: number;
    let byS: number;
    let byLogThickness = 0;
    let byBacking = 0;
    if (reading.backing === undefined) {
      const kappa = attenuation(k, s);
      internal = reflectivity(k, s);
      byK = -internal / kappa;
      byS = k / (kappa * (k + s + kappa));
    } else {
      const thickness = (thicknessAt < 0 ? known : Math.exp(border[thicknessAt])) / volume;
      const backing = clampToFraction(internalReflectance(reading.backing[band], surface));
      const film = filmGradient(k, s, thickness, backing);
      internal = film.reflectance;
      byK = film.byK;
      byS = film.byS;
      byLogThickness = film.byThickness * thickness;
      byBacking = film.byBacking;
    }
    const outside = measuredSlope(internal, surface);
    into.reflectance = measuredReflectance(internal, surface);

    into.count = 2 * toners.length;
    into.borderCount = 0;
    for (let c = 0; c < toners.length; c++) {
      const share = (shareAt < 0 ? shares[c] : shares[c] * Math.exp(border[shareAt + c])) / total;
      const place = start + toners[c];
      const kOf = Math.exp(local[place]);
      const sOf = Math.exp(local[place + tonerCount]) * lie(c);
      into.places[c] = toners[c];
      into.slopes[c] = outside * byK * share * kOf;
      into.places[toners.length + c] = tonerCount + toners[c];
      into.slopes[toners.length + c] = outside * byS * share * sOf;
      const densityAt = unknowns.density[toners[c]];
      const part = (share * volumes[toners[c]]) / volume;
      if (densityAt >= 0) addBorder(into, densityAt, outside * byLogThickness * part);
      if (shareAt >= 0) {
        const slope =
          outside * (share * (byK * (kOf - k) + byS * (sOf - s)) + byLogThickness * (share - part));
        addBorder(into, shareAt + c, slope);
      }
    }
    if (sprayAt >= 0) addSpray(into, reading, x);
    if (thicknessAt >= 0) addBorder(into, thicknessAt, outside * byLogThickness);
    for (const { place, below, above } of fitted[reading.geometry]) {
      let change = measuredReflectance(internal, above) - measuredReflectance(internal, below);
      if (reading.backing !== undefined) {
        const under = reading.backing[band];
        const shift =
          clampToFraction(internalReflectance(under, above)) -
          clampToFraction(internalReflectance(under, below));
        change += outside * byBacking * shift;
      }
      addBorder(into, place, change / (2 * SURFACE_STEP));
    }
  };
}

function addBorder(into: Row, place: number, slope: number): void {
  into.borderPlaces[into.borderCount] = place;
  into.borderSlopes[into.borderCount] = slope;
  into.borderCount++;
}

function clampToFraction(value: number): number {
  return Math.min(1, Math.max(0, value));
}
