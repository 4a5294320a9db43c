import type { Light } from "../../belief/film.js";
import { lossOf } from "../../belief/filmResponse.js";
import { halfNormal } from "../../belief/halfNormal.js";
import type { Field } from "../../belief/unknown.js";
import type { FadeFit } from "./fitFade.js";

/** Unknowns that have a part in something linear, and their parts. */
type Parts = readonly (readonly [unknown: number, part: number])[];

/** What a panel's colours in one world come to: its faded paint and its yellowing. */
export interface Fading {
  /** ln of what is on the panel of a toner, over what the formula says; above 0 it looks stronger. */
  logRemaining(u: ArrayLike<number>, toner: number): number;
  /** ∂ ln(remaining)/∂u. */
  slopes(u: ArrayLike<number>, toner: number): Parts;
  /** Grams of every toner of the set that make the panel's paint, yellowing left out; binder stays as the formula says. */
  grams(u: ArrayLike<number>): Float64Array;
  /** K/S that yellowing adds, band by band. */
  yellowing(u: ArrayLike<number>): Float64Array;
  /** Unknowns of paint and light that the panel has a part in. */
  readonly unknowns: readonly number[];
  /** That of its yellowing. */
  readonly yellow: number;
  readonly light: Light;
}

/** The fading of panel `p` of a fit as a function of the unknowns of its belief. */
export function fadingOf({ formula, toners, belief }: FadeFit, p: number): Fading {
  const { unknowns, films } = belief.scope;
  const film = films[belief.cards.length + p];
  const { light } = belief.panels[p];
  if (!light) throw new Error("a faded panel without light");
  const partsOf = (field: Field, of: number): Parts =>
    unknowns.flatMap(({ owner, effects }, x) => {
      const part = effects
        .filter((effect) => effect.field === field && effect.toner === of)
        .reduce((sum, { share, shape }) => sum + share(film) * shape[0], 0);
      return owner === "panel" && part !== 0 ? [[x, part] as const] : [];
    });
  const batch = new Map(toners.map((j) => [j, partsOf("strength", j)]));
  const exponent = new Map(toners.map((j) => [j, partsOf("loss", j)]));
  const [[yellow]] = partsOf("yellow", -1);
  const sum = (parts: Parts = [], u: ArrayLike<number>) =>
    parts.reduce((total, [x, part]) => total + part * u[x], 0);
  const logRemaining = (u: ArrayLike<number>, j: number) =>
    sum(batch.get(j), u) - lossOf(light, sum(exponent.get(j), u), j);
  return {
    logRemaining,
    slopes(u, j) {
      const loss = lossOf(light, sum(exponent.get(j), u), j);
      return [
        ...(batch.get(j) ?? []),
        ...(exponent.get(j) ?? []).map(([x, part]) => [x, -loss * part] as const),
      ];
    },
    grams(u) {
      const grams = formula.grams.slice();
      for (const j of toners) grams[j] *= Math.exp(logRemaining(u, j));
      return grams;
    },
    yellowing(u) {
      const yellowed = halfNormal(u[yellow]);
      return light.yellow.map((value) => value * yellowed);
    },
    unknowns: [...new Set([...batch.values(), ...exponent.values()].flat().map(([x]) => x)), yellow],
    yellow,
    light,
  };
}
