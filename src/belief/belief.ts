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

/** A posterior has as many equations as rows; neighbouring bands of a fine grid say the same (design value). */
const MOST_ROWS = 400;

/** Every how many bands the cards are looked at: all of them unless there are very many. */
export function strideOf(cards: readonly ReadCard[]): number {
  const bands = cards.reduce((sum, { reflectance }) => sum + reflectance.length, 0);
  return Math.max(1, Math.ceil(bands / MOST_ROWS));
}

function readingsOf(cards: readonly ReadCard[], sd: number): readonly Observation[] {
  const stride = strideOf(cards);
  return cards.map(({ reflectance }, place) => reflectanceObservation(place, reflectance, sd, stride));
}

/** More toners than this in one pot have no curves of their own: each has next to no part in the colour (design value). */
const MOST_CURVED = 30;

/** The toners there is most of in a card's pot. */
function mostOf(used: readonly number[], last: ReadCard | undefined): readonly number[] {
  if (!last || used.length <= MOST_CURVED) return used;
  const { grams } = last;
  return [...used].sort((a, b) => grams[b] - grams[a]).slice(0, MOST_CURVED);
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
    ...tonerUnknowns(model, mostOf(used, cards[cards.length - 1]), sizes),
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
