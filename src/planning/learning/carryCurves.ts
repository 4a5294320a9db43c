import type { Belief } from "../../belief/belief.js";
import { fieldsOf } from "../../belief/filmResponse.js";
import { shownBy } from "../../belief/shownBy.js";
import { sameGrid } from "../../spectra/grid.js";
import type { SpectraByGeometry, Toner } from "../../toners/toner.js";
import type { TonerSet } from "../../toners/tonerSet.js";

/** Least doubt about a toner after its cards: that of a characterised one. */
const LEAST_MISFIT = 1;

/**
 * Generic toners with what the believed cards of a pot have shown of their curves: ln K and ln S by the posterior mean, doubt
 * by what is left of it. One that a card shows with white alone becomes `tinted`. K and S are the film's, so a geometry that
 * was not read is moved as the first that was. With no work left the doubt stays. Where the cards do not cover the grid of the set nothing is carried.
 */
export function carryCurves(set: TonerSet, { prior, scope, posterior, cards, used }: Belief): TonerSet {
  const { model, unknowns, films } = scope;
  const { size } = model.coefficients;
  const { count } = model.set.grid;
  if (!sameGrid(model.set.grid, set.grid)) return set;
  const fields = fieldsOf(model, unknowns, posterior.u, films[cards.length - 1]);
  const moved = (spectra: SpectraByGeometry, by: Float64Array, j: number): SpectraByGeometry =>
    Object.fromEntries(
      set.surfaces.map(({ geometry }) => {
        const g = Math.max(0, model.geometries.indexOf(geometry));
        const values = spectra[geometry] as ArrayLike<number>;
        return [geometry, Array.from(values, (value, b) => value * Math.exp(by[j * size + g * count + b]))];
      }),
    );
  const { work } = prior;
  const left = (j: number): number => {
    work?.spend(posterior.factor.stepsToWhiten * size);
    if (work?.isSpent()) return 1;
    const own = unknowns.map(({ effects }) =>
      effects.filter(({ field, toner }) => field === "k" && toner === j),
    );
    const by = new Float64Array(unknowns.length * size);
    own.forEach((effects, x) => {
      for (const { from, shape, share } of effects) {
        const amount = share(films[cards.length - 1]);
        shape.forEach((height, b) => {
          by[x * size + from + b] += amount * height;
        });
      }
    });
    const squares = (values: Float64Array) => values.reduce((sum, value) => sum + value * value, 0);
    const before = squares(by);
    return before > 0 ? Math.sqrt(Math.max(0, 1 - squares(shownBy(posterior, by, size)) / before)) : 1;
  };
  // White and binder are in every tint.
  const isGround = ({ role }: Toner) => role === "white" || role === "binder";
  const isTint = (j: number) =>
    isGround(set.toners[j]) ||
    cards.some(({ grams }) => set.toners.every((other, i) => i === j || grams[i] === 0 || isGround(other)));
  return {
    ...set,
    toners: set.toners.map((toner, j): Toner => {
      const { provenance, misfit = 1 } = toner;
      if (provenance === undefined || !used.includes(j)) return toner;
      return {
        ...toner,
        misfit: Math.max(LEAST_MISFIT, misfit * left(j)),
        provenance: provenance === "tinted" || isTint(j) ? "tinted" : "generic",
        k: moved(toner.k, fields.k, j),
        s: moved(toner.s, fields.s, j),
      };
    }),
  };
}
