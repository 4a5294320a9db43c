import { reflectivity } from "../optics/infiniteFilm.js";
import { tilted } from "../toners/orientation.js";
import type { Scope } from "./believe.js";
import type { Film } from "./film.js";
import { fieldsOf, throughSurface } from "./filmResponse.js";
import { type Effect, isOfToner } from "./unknown.js";

/** A toner's K and S per gram, band by band. */
interface Curves {
  readonly k: Float64Array;
  readonly s: Float64Array;
}

/**
 * What a film would read in one world, band by band over all geometries, had its pot held other grams: as `filmResponse`
 * has it, without slopes. What does not depend on the grams is worked out once, so that hundreds of faults can be tried.
 */
export function createFilmReader(
  { model, strengths, unknowns }: Pick<Scope, "model" | "strengths" | "unknowns">,
  u: ArrayLike<number>,
  film: Film,
): (grams: Float64Array) => Float64Array {
  const { size, k: kOf, s: sOf } = model.coefficients;
  const bands = size / model.surfaces.length;
  const moving: (readonly [number, Effect])[] = [];
  const still = unknowns.map(({ owner, effects }, x) => {
    if (u[x] === 0) return { owner, effects: [] };
    for (const effect of effects) if (effect.isOfGrams) moving.push([u[x], effect]);
    return { owner, effects: effects.filter(({ isOfGrams }) => !isOfGrams) };
  });
  const fields = fieldsOf(model, still, u, film);
  const factor = fields.ratio.map(Math.exp);
  const known = new Map<number, Curves>();
  const curvesOf = (j: number): Curves => {
    const before = known.get(j);
    if (before) return before;
    const moved = (of: Float64Array, by: Float64Array) =>
      Float64Array.from({ length: size }, (_, b) => {
        const i = j * size + b;
        return strengths[j] * of[i] * Math.exp(fields.strength[i] + by[i]);
      });
    const curves = { k: moved(kOf, fields.k), s: moved(sOf, fields.s) };
    known.set(j, curves);
    return curves;
  };
  return (grams) => {
    const own = { ...film, grams };
    const more = new Map<number, number>();
    let tilt = 0;
    for (const [value, { field, toner, shape, share }] of moving) {
      const by = value * share(own) * shape[0];
      if (isOfToner(field)) more.set(toner, (more.get(toner) ?? 0) + by);
      else tilt += by;
    }
    const k = new Float64Array(size);
    const s = new Float64Array(size);
    for (let j = 0; j < grams.length; j++) {
      if (grams[j] * strengths[j] === 0) continue;
      const amount = grams[j] * Math.exp(more.get(j) ?? 0);
      const { k: byK, s: byS } = curvesOf(j);
      const lie = model.orientation[j];
      for (let b = 0; b < size; b++) {
        const curve = lie?.[Math.floor(b / bands)];
        k[b] += amount * byK[b];
        s[b] += amount * byS[b] * (curve ? Math.exp(tilted(curve, fields.flakeTilt[b] + tilt)) : 1);
      }
    }
    return k.map((absorption, b) => {
      const inside = reflectivity(factor[b] * absorption, s[b]);
      const surface = model.surfaces[Math.floor(b / bands)];
      const { out } = throughSurface(surface, { k2: fields.k2[b], rise: fields.rise[b] }, inside);
      return (1 + fields.gain[b]) * out + fields.offset[b];
    });
  };
}
