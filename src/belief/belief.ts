import { type BelieveEffort, believe, type Posterior, type Scope } from "./believe.js";
import { createKinship, type Film } from "./film.js";
import type { Observation } from "./operators/observation.js";
import { reflectanceObservation } from "./operators/reflectanceObservation.js";
import type { Prior, ReadCard } from "./prior.js";
import type { Unknown } from "./unknown.js";
import { canUnknowns } from "./unknowns/cans.js";
import { filmUnknowns } from "./unknowns/films.js";
import { paintUnknowns } from "./unknowns/paints.js";
import { pourUnknowns } from "./unknowns/pours.js";
import { surfaceUnknowns } from "./unknowns/surfaces.js";
import { tonerUnknowns } from "./unknowns/toners.js";

/** What is believed of cans, toners, paint, surface and cards once some cards of a pot were read. */
export interface Belief {
  readonly prior: Prior;
  readonly cards: readonly ReadCard[];
  readonly scope: Scope;
  readonly posterior: Posterior;
  /** Toners that a card was sprayed from; of the others no card has shown anything. */
  readonly used: readonly number[];
  /** A further film of such a pot. */
  readonly nextFilm: (grams: Float64Array) => Film;
}

/** The belief that the cards of one pot leave, in the order of their spraying; `unknowns` are such as a fault would add. */
export function beliefOf(
  prior: Prior,
  cards: readonly ReadCard[],
  { unknowns = [], effort }: { readonly unknowns?: readonly Unknown[]; readonly effort?: BelieveEffort } = {},
): Belief {
  const { scope, used, nextFilm } = scopeOf(prior, cards, unknowns);
  const posterior = believe(scope, readingsOf(cards, prior.sizes.readingSd), effort && { effort });
  return { prior, cards, scope, posterior, used, nextFilm };
}

/** The same belief, had the readings this much noise; found from where it stands, if it stands. */
export function atReadingSd(belief: Belief, readingSd: number): Belief {
  const { prior, cards, scope, posterior } = belief;
  return {
    ...belief,
    prior: { ...prior, sizes: { ...prior.sizes, readingSd } },
    posterior: believe(
      scope,
      readingsOf(cards, readingSd),
      posterior.converged ? { start: posterior.u } : {},
    ),
  };
}

function readingsOf(cards: readonly ReadCard[], sd: number): readonly Observation[] {
  return cards.map(({ reflectance }, place) => reflectanceObservation(place, reflectance, sd));
}

/** The one registry: every unknown that the cards of a pot may show, by owner. */
function scopeOf(prior: Prior, cards: readonly ReadCard[], further: readonly Unknown[]) {
  const { model, sizes, logStrength, covariance } = prior;
  const { toners, size } = model.coefficients;
  const all = Array.from({ length: toners }, (_, j) => j);
  const used = all.filter((j) => cards.some(({ grams }) => grams[j] > 0));
  const isOther = (j: number) => !used.includes(j);
  const place = createKinship(
    model,
    cards.map(({ grams }) => grams),
  );
  const poured = cards.map(({ grams }, c) =>
    grams.map((amount, j) => amount - (cards[c - 1]?.grams[j] ?? 0)),
  );
  const unknowns: readonly Unknown[] = [
    ...canUnknowns(covariance, [...used, ...all.filter(isOther)], size),
    ...tonerUnknowns(model, used, sizes),
    ...paintUnknowns(model, { places: [...cards.keys()], used }, sizes),
    ...surfaceUnknowns(model, sizes),
    ...cards.flatMap(({ reflectance }, c) => filmUnknowns(model, { place: c, reflectance }, sizes)),
    ...poured.flatMap((grams, c) => pourUnknowns({ place: c, poured: grams, size }, sizes)),
    ...further,
  ];
  const films = cards.map(({ grams }, c) => place(grams, c));
  return {
    scope: { model, strengths: logStrength.map(Math.exp), unknowns, films },
    used,
    nextFilm: (grams: Float64Array) => place(grams, cards.length),
  };
}
