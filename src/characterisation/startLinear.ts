import { nnlsOfSparseRows } from "../numeric/leastSquares/nnlsOfSparseRows.js";
import { filmGradient } from "../optics/filmGradient.js";
import { absorptionRatio, reflectivitySlope } from "../optics/infiniteFilm.js";
import { filmFromBackings } from "../optics/twoBackings.js";
import { internalReflectance, measuredSlope, surfaceTerms } from "../surface/saunderson.js";
import type { Observation, Observations } from "./observations.js";
import type { Point, Unknowns } from "./unknowns.js";

/** What one film says at one cell, linear in K and S of the toners in it. */
interface Equation {
  readonly film: number;
  readonly cell: number;
  /** K/S, of a film that hides; else K and S times thickness. */
  readonly ratio?: number;
  readonly kx: number;
  readonly sx: number;
  /** 1/σ of the ratio times S, or of kx and sx. */
  readonly weightK: number;
  readonly weightS: number;
}

/** Passes of the linear stage: weights and thicknesses come from the pass before. */
const PASSES = 3;
/** Internal reflectances are kept this far from 0 and 1, where K/S has no weight anyway. */
const EDGE = 1e-4;
/** What a zero of the non-negative fit becomes before logarithms are taken, as a share of the mean S. */
const FLOOR = 1e-3;
const REFERENCE_WEIGHT = 1e3;

/**
 * The linear stage: K and S ≥ 0 of all toners at each cell at once, by non-negative least squares over all ladders
 * (Walowit, McCarthy & Berns 1987). A film that hides gives Σ wⱼ(Kⱼ − qSⱼ) = 0, weighted by |dR/dq|/(S_mix·σ_R);
 * one read over two backings Σ wⱼKⱼ = KX/X and Σ wⱼSⱼ = SX/X (Kubelka 1948). Masstone and one tint, or a single
 * drawdown over two backings, are the cases with as many equations as unknowns. Unknown thicknesses start at the
 * mean and follow between the passes.
 */
export function startLinear(observations: Observations, unknowns: Unknowns): Point {
  const { tonerCount, films } = observations;
  const { cells, size } = unknowns;
  const equations = collectEquations(observations);
  const thickness = Float64Array.from(films, (film, f) => {
    const place = unknowns.thickness[f];
    return place >= 0 ? Math.exp(unknowns.priorMean[place]) : (film.thickness ?? 1);
  });
  const values = new Float64Array(cells * size);
  for (let i = 0; i < values.length; i++) values[i] = i % size < tonerCount ? 0.1 : 1;
  for (let pass = 0; pass < PASSES; pass++) {
    for (let cell = 0; cell < cells; cell++) {
      solveCell(observations, unknowns, equations[cell], { cell, values, thickness });
    }
    updateThickness(observations, unknowns, equations, values, thickness);
  }
  const border = unknowns.priorMean.slice();
  unknowns.thickness.forEach((place, f) => {
    if (place >= 0) border[place] = Math.log(thickness[f]);
  });
  return { local: withoutZeros(values, unknowns, tonerCount).map(Math.log), border };
}

function collectEquations({ films, readings, surfaces, grid }: Observations): readonly Equation[][] {
  const terms = surfaces.map(surfaceTerms);
  const readingsOf = films.map((_, film) => readings.filter((reading) => reading.film === film));
  return Array.from({ length: surfaces.length * grid.count }, (_, cell) => {
    const geometry = Math.floor(cell / grid.count);
    const band = cell % grid.count;
    const surface = terms[geometry];
    const inside = (value: number) => Math.min(1 - EDGE, Math.max(EDGE, internalReflectance(value, surface)));
    return films.flatMap((_, film): readonly Equation[] => {
      const own = readingsOf[film].filter((reading) => reading.geometry === geometry);
      const overBackings = own.filter(({ backing }) => backing !== undefined);
      const pair = widestPair(overBackings, band);
      const hidden = (reading: Observation): Equation => {
        const internal = inside(reading.measured[band]);
        const slope = Math.abs(reflectivitySlope(internal)) * measuredSlope(internal, surface);
        const weight = slope * reading.weight[band];
        return { film, cell, ratio: absorptionRatio(internal), kx: 0, sx: 0, weightK: weight, weightS: 0 };
      };
      if (!pair) return own.map(hidden);
      const backings = pair.map(({ backing }) => inside(backing?.[band] ?? 0));
      const found = filmFromBackings({
        backings: [backings[0], backings[1]],
        films: [inside(pair[0].measured[band]), inside(pair[1].measured[band])],
      });
      if (found.status !== "identified" || found.kx + found.sx > MOST_OPTICAL) return pair.map(hidden);
      const slopes = pair.map((reading, i) => {
        const { byK, byS, reflectance } = filmGradient(found.kx, found.sx, 1, backings[i]);
        const weight = measuredSlope(reflectance, surface) * reading.weight[band];
        return { byK: byK * weight, byS: byS * weight };
      });
      const weightK = Math.hypot(...slopes.map(({ byK }) => byK));
      const weightS = Math.hypot(...slopes.map(({ byS }) => byS));
      return [{ film, cell, kx: found.kx, sx: found.sx, weightK, weightS }];
    });
  });
}

/** A film of more optical thickness than this hides: its KX and SX are the noise of two equal readings. */
const MOST_OPTICAL = 30;

function widestPair(
  readings: readonly Observation[],
  band: number,
): readonly [Observation, Observation] | undefined {
  const sorted = [...readings].sort((a, b) => (a.backing?.[band] ?? 0) - (b.backing?.[band] ?? 0));
  return sorted.length < 2 ? undefined : [sorted[0], sorted[sorted.length - 1]];
}

function solveCell(
  { films, tonerCount, reference }: Observations,
  { size, gauge }: Unknowns,
  equations: readonly Equation[],
  at: { readonly cell: number; readonly values: Float64Array; readonly thickness: Float64Array },
): void {
  const values = at.values.subarray(at.cell * size, (at.cell + 1) * size);
  const rows = 2 * equations.length + 1;
  const a = new Float64Array(rows * size);
  const b = new Float64Array(rows);
  equations.forEach(({ film, ratio, kx, sx, weightK, weightS }, e) => {
    const { toners, shares } = films[film];
    const thickness = at.thickness[film];
    let sMix = 0;
    toners.forEach((j, c) => {
      sMix += shares[c] * values[tonerCount + j];
    });
    const first = 2 * e * size;
    const weight = ratio === undefined ? weightK : weightK / Math.max(sMix, 1e-6);
    toners.forEach((j, c) => {
      if (ratio === undefined) {
        a[first + j] = weight * shares[c] * thickness;
        a[first + size + tonerCount + j] = weightS * shares[c] * thickness;
      } else {
        a[first + j] = weight * shares[c];
        a[first + tonerCount + j] = -weight * ratio * shares[c];
      }
    });
    if (ratio === undefined) {
      b[2 * e] = weight * kx;
      b[2 * e + 1] = weightS * sx;
    }
  });
  // Where nothing but ratios is known at this cell the scale is free, whatever other cells know.
  const isFree = gauge === "reference toner" || equations.every(({ ratio }) => ratio !== undefined);
  if (isFree) {
    const last = 2 * equations.length;
    a[last * size + tonerCount + reference] = REFERENCE_WEIGHT;
    b[last] = REFERENCE_WEIGHT;
  }
  if (equations.some(({ ratio }) => ratio !== undefined)) {
    values.set(nnlsOfSparseRows(a, b, rows, size).x);
    return;
  }
  // Without ratios nothing ties K to S: two problems of a quarter of the size.
  for (const half of [0, 1]) {
    const count = equations.length;
    const part = new Float64Array(count * tonerCount);
    const right = new Float64Array(count);
    for (let e = 0; e < count; e++) {
      const row = 2 * e + half;
      const first = row * size + half * tonerCount;
      part.set(a.subarray(first, first + tonerCount), e * tonerCount);
      right[e] = b[row];
    }
    values.set(nnlsOfSparseRows(part, right, count, tonerCount).x, half * tonerCount);
  }
}

/** Each unknown thickness by least squares against the mix that the pass found, brought back to the mean film. */
function updateThickness(
  { films, tonerCount }: Observations,
  { cells, size, thickness: places, gauge }: Unknowns,
  equations: readonly (readonly Equation[])[],
  values: Float64Array,
  thickness: Float64Array,
): void {
  const above = new Float64Array(films.length);
  const below = new Float64Array(films.length);
  for (let cell = 0; cell < cells; cell++) {
    for (const { film, ratio, kx, sx, weightK, weightS } of equations[cell]) {
      if (ratio !== undefined) continue;
      let k = 0;
      let s = 0;
      films[film].toners.forEach((j, c) => {
        k += films[film].shares[c] * values[cell * size + j];
        s += films[film].shares[c] * values[cell * size + tonerCount + j];
      });
      above[film] += weightK ** 2 * k * kx + weightS ** 2 * s * sx;
      below[film] += weightK ** 2 * k * k + weightS ** 2 * s * s;
    }
  }
  const free = Array.from(places.keys()).filter((f) => places[f] >= 0);
  for (const f of free) {
    if (above[f] > 0)
      thickness[f] = Math.min(10, Math.max(0.1, above[f] / below[f] / thickness[f])) * thickness[f];
  }
  if (gauge !== "mean film") return;
  const mean = free.reduce((sum, f) => sum + Math.log(thickness[f]), 0) / free.length;
  for (const f of free) thickness[f] /= Math.exp(mean);
}

function withoutZeros(values: Float64Array, { cells, size }: Unknowns, tonerCount: number): Float64Array {
  const positive = values.slice();
  for (let cell = 0; cell < cells; cell++) {
    let sum = 0;
    for (let j = 0; j < tonerCount; j++) sum += values[cell * size + tonerCount + j];
    const floor = (FLOOR * sum) / tonerCount || FLOOR;
    for (let i = cell * size; i < (cell + 1) * size; i++) positive[i] = Math.max(floor, positive[i]);
  }
  return positive;
}
