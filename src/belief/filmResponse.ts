import type { ForwardModel } from "../forward/forwardModel.js";
import { reflectivity } from "../optics/infiniteFilm.js";
import type { SurfaceTerms } from "../surface/saunderson.js";
import { tilted, tiltedSlope } from "../toners/orientation.js";
import type { Film, Light } from "./film.js";
import { halfNormal, halfNormalSlope } from "./halfNormal.js";
import type { Span } from "./operators/observation.js";
import { type Field, isOfToner, type Unknown } from "./unknown.js";

/** Reflectance of a film in one world, band by band over all geometries, and its slopes by field. */
export interface FilmResponse {
  readonly reflectance: Float64Array;
  /** Where the slopes of toner j begin; −1 where the film holds none of it. */
  readonly first: Int32Array;
  /** ∂R/∂ln f, ∂R/∂ln K and ∂R/∂ln S of toner j at `[first[j] + band]`; the other fields at `[band]`. */
  readonly slopes: Fields;
}

/** Every field of a film; a toner's from where its numbers begin, the others at `[band]`. */
type Fields = Readonly<Record<Field, Float64Array>>;

/** The fields that only a panel has are empty elsewhere. */
function createFields(size: number, toners: number, light: Light | undefined): Fields {
  const ofBands = () => new Float64Array(size);
  const ofToners = () => new Float64Array(toners * size);
  return {
    strength: ofToners(),
    k: ofToners(),
    s: ofToners(),
    ratio: ofBands(),
    offset: ofBands(),
    gain: ofBands(),
    k2: ofBands(),
    rise: ofBands(),
    flakeTilt: ofBands(),
    loss: light ? ofToners() : new Float64Array(0),
    yellow: light ? ofBands() : new Float64Array(0),
  };
}

/** Where the numbers of some toners begin among those of them alone; −1 for all others. */
function placesOf({ coefficients: { toners, size } }: ForwardModel, some: readonly number[]): Int32Array {
  const first = new Int32Array(toners).fill(-1);
  some.forEach((j, place) => {
    first[j] = place * size;
  });
  return first;
}

/** Fields of a film where the unknowns have the values `u`; those of toner j at `[j·size + band]`. */
export function fieldsOf(
  model: ForwardModel,
  unknowns: readonly Unknown[],
  u: ArrayLike<number>,
  film: Film,
): Fields {
  const { toners } = model.coefficients;
  const every = Array.from({ length: toners }, (_, j) => j);
  return fieldsAt(model, { unknowns, u }, film, placesOf(model, every));
}

interface World {
  readonly unknowns: readonly Unknown[];
  readonly u: ArrayLike<number>;
}

function fieldsAt(
  { coefficients: { size } }: ForwardModel,
  { unknowns, u }: World,
  film: Film,
  first: Int32Array,
): Fields {
  const fields = createFields(
    size,
    first.reduce((count, at) => (at < 0 ? count : count + 1), 0),
    film.light,
  );
  for (let x = 0; x < unknowns.length; x++) {
    if (u[x] === 0) continue;
    for (const { field, toner, from, shape, share } of unknowns[x].effects) {
      const start = isOfToner(field) ? first[toner] : 0;
      if (start < 0) continue;
      const amount = u[x] * share(film);
      if (amount === 0) continue;
      const values = fields[field];
      const at = start + from;
      for (let b = 0; b < shape.length; b++) values[at + b] += amount * shape[b];
    }
  }
  return fields;
}

/**
 * The one forward model of everything that is believed. Paint: K = e^ratio·Σ gⱼfⱼKⱼ, S = Σ gⱼfⱼSⱼ with every toner's f, K and S
 * moved by its unknowns; on a panel f by what light left of it and K/S by what it yellowed; S of flake by
 * e^(slope·x + bend·x²), x the tilt of the film. Opaque film R∞ (Kubelka & Munk 1931) under a surface (`throughSurface`; Saunderson
 * 1942, k2 made to depend on the film), then (1 + gain)·R + offset. `strengths` are factors on the grams. NaN where κ is none of a
 * surface, and where a film neither absorbs nor scatters.
 */
export function filmResponse(
  model: ForwardModel,
  strengths: ArrayLike<number>,
  world: World,
  film: Film,
): FilmResponse {
  const { size, k: kOf, s: sOf } = model.coefficients;
  const bands = size / model.surfaces.length;
  const inFilm = Array.from(film.grams.keys()).filter((j) => film.grams[j] * strengths[j] !== 0);
  const first = placesOf(model, inFilm);
  const fields = fieldsAt(model, world, film, first);
  const { light } = film;
  const slopes = createFields(size, inFilm.length, light);
  // Light acts on all bands of a toner alike, and yellowing has one size: both are the same in every band.
  const lossAt = (j: number) => (light ? lossOf(light, fields.loss[first[j]], j) : 0);
  const yellowed = light ? halfNormal(fields.yellow[0]) : 0;
  const byYellow = light ? halfNormalSlope(fields.yellow[0]) : 0;
  const reflectance = new Float64Array(size);
  const k = new Float64Array(size);
  const s = new Float64Array(size);
  for (const j of inFilm) {
    const amount = film.grams[j] * strengths[j] * Math.exp(-lossAt(j));
    const curves = model.orientation[j];
    for (let b = 0, i = first[j], of = j * size; b < size; b++, i++, of++) {
      // Stored here until the slopes overwrite them.
      slopes.k[i] = amount * kOf[of] * Math.exp(fields.strength[i] + fields.k[i]);
      slopes.s[i] = amount * sOf[of] * Math.exp(fields.strength[i] + fields.s[i]);
      const curve = curves?.[Math.floor(b / bands)];
      if (curve) slopes.s[i] *= Math.exp(tilted(curve, fields.flakeTilt[b]));
      k[b] += slopes.k[i];
      s[b] += slopes.s[i];
    }
  }
  for (let b = 0; b < size; b++) {
    const ratio = Math.exp(fields.ratio[b]);
    const own = k[b];
    if (light) k[b] += yellowed * light.yellow[b] * s[b];
    const inside = reflectivity(ratio * k[b], s[b]);
    const surface = model.surfaces[Math.floor(b / bands)];
    const { through, steep, back, echo, out } = throughSurface(
      surface,
      { k2: fields.k2[b], rise: fields.rise[b] },
      inside,
    );
    const factor = 1 + fields.gain[b];
    const byBack = (-factor * through * inside * (1 - inside)) / (echo * echo);
    const byInside = (factor * through * (1 - back)) / (echo * echo) + byBack * steep;
    const byRatio = (-byInside * inside * (1 - inside)) / (1 + inside);
    reflectance[b] = factor * out + fields.offset[b];
    slopes.ratio[b] = byRatio;
    slopes.offset[b] = 1;
    slopes.gain[b] = out;
    slopes.k2[b] = byBack;
    slopes.rise[b] = byBack * (inside - 0.5);
    // Overwritten with ∂R/∂ΣgK and ∂R/∂ΣgS.
    if (light) slopes.yellow[b] = (byRatio * byYellow * light.yellow[b] * s[b]) / k[b];
    s[b] = own === k[b] ? -byRatio / s[b] : (-byRatio * own) / (s[b] * k[b]);
    k[b] = k[b] > 0 ? byRatio / k[b] : 0;
  }
  for (const j of inFilm) {
    const curves = model.orientation[j];
    const loss = lossAt(j);
    for (let b = 0, i = first[j]; b < size; b++, i++) {
      slopes.k[i] *= k[b];
      slopes.s[i] *= s[b];
      slopes.strength[i] = slopes.k[i] + slopes.s[i];
      if (light) slopes.loss[i] = -loss * slopes.strength[i];
      const curve = curves?.[Math.floor(b / bands)];
      if (curve) slopes.flakeTilt[b] += slopes.s[i] * tiltedSlope(curve, fields.flakeTilt[b]);
    }
  }
  return { reflectance, first, slopes };
}

/**
 * R = o + c(1 − κ)R∞/(1 − κR∞) with κ = k2 + rise·(R∞ − ½), both moved by `by`, and its parts: `through` c, `back` κ, `steep`
 * the rise, `echo` 1 − κR∞. NaN where κ is none of a surface.
 */
export function throughSurface(
  { offset, gain, k2, rise = 0 }: SurfaceTerms,
  by: { readonly k2: number; readonly rise: number },
  inside: number,
) {
  const through = gain / (1 - k2);
  const steep = rise + by.rise;
  const back = k2 + by.k2 + steep * (inside - 0.5);
  const echo = isSurface(k2 + by.k2, steep) ? 1 - back * inside : Number.NaN;
  return { through, steep, back, echo, out: offset + (through * (1 - back) * inside) / echo };
}

/** e^−40 of a toner is none. */
const MOST_LOSS = 40;

/** −ln of what light left of toner j: its median times e^exponent. */
export function lossOf({ medianLoss }: Light, exponent: number, j: number): number {
  return medianLoss[j] === 0 ? 0 : Math.min(MOST_LOSS, medianLoss[j] * Math.exp(exponent));
}

/** Ranges of κ and of its rise; a world with a surface beyond them gives NaN. */
const KEPT = { least: -0.3, most: 0.95 };
const STEEPEST = 0.45;

function isSurface(k2: number, rise: number): boolean {
  const half = Math.abs(rise) / 2;
  return 2 * half <= STEEPEST && k2 - half >= KEPT.least && k2 + half <= KEPT.most;
}

/** ∂R/∂u of a film: band b by unknown x at `[x·size + b]`. */
export function filmSlopes(response: FilmResponse, unknowns: readonly Unknown[], film: Film): Float64Array {
  const size = response.reflectance.length;
  const by = new Float64Array(unknowns.length * size);
  for (const [x, unknown] of unknowns.entries()) addSlopes(response, unknown, film, by, x * size);
  return by;
}

/** Adds ∂R/∂u of one unknown to `into` from `at` on; returns the bands outside which it is 0. */
export function addSlopes(
  { slopes, first, reflectance: { length: size } }: FilmResponse,
  { effects }: Unknown,
  film: Film,
  into: Float64Array,
  at: number,
): Span {
  let least = size;
  let most = 0;
  for (const { field, toner, from, shape, share } of effects) {
    const start = isOfToner(field) ? first[toner] : 0;
    if (start < 0) continue;
    const amount = share(film);
    if (amount === 0) continue;
    const values = slopes[field];
    for (let b = 0; b < shape.length; b++) {
      into[at + from + b] += amount * shape[b] * values[start + from + b];
    }
    least = Math.min(least, from);
    most = Math.max(most, from + shape.length);
  }
  return { from: Math.min(least, most), to: most };
}
