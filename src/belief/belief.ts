import { type BelieveEffort, believe, type Posterior, type Scope } from "./believe.js";
import { createKinship, type Film } from "./film.js";
import { observationsOf, type Seen, sharedUnknowns } from "./observationsOf.js";
import type { SeenPanel } from "./panel.js";
import type { Prior, ReadCard } from "./prior.js";
import type { Unknown } from "./unknown.js";
import { canUnknowns } from "./unknowns/cans.js";
import { filmUnknowns } from "./unknowns/films.js";
import { paintUnknowns } from "./unknowns/paints.js";
import { panelUnknowns } from "./unknowns/panels.js";
import { pourUnknowns } from "./unknowns/pours.js";
import { sprayedAlike, sprayUnknowns } from "./unknowns/spray.js";
import { surfaceUnknowns } from "./unknowns/surfaces.js";
import { tonerUnknowns } from "./unknowns/toners.js";

/** The posterior of cans, toners, paint, surface, cards and panels, given what was seen of them. */
export interface Belief extends Seen {
  readonly prior: Prior;
  readonly scope: Scope;
  readonly posterior: Posterior;
  /** Toners in the pot of any card; no card shows anything of the others. */
  readonly used: readonly number[];
  /** A further film of such a pot. */
  readonly nextFilm: (grams: Float64Array) => Film;
}

/** Further input of a belief besides its cards. */
export interface BeliefOptions {
  /** Further unknowns, such as those of a fault. */
  readonly unknowns?: readonly Unknown[];
  /** Panels seen otherwise than by their spectra; the last films of the scope, in this order. */
  readonly panels?: readonly SeenPanel[];
  /** An earlier belief of the same cards and panels without further unknowns, to start from where it has converged. */
  readonly from?: Belief | undefined;
  readonly effort?: BelieveEffort;
}

/** The belief that the cards of one pot leave, in the order of their spraying. */
export function beliefOf(
  prior: Prior,
  cards: readonly ReadCard[],
  { unknowns = [], panels = [], from, effort }: BeliefOptions = {},
): Belief {
  const shared = sharedUnknowns(cards, panels);
  const seen = { cards, panels, shared };
  const { scope, used, nextFilm } = scopeOf(prior, seen, unknowns);
  const observations = observationsOf(seen, prior.model, prior.sizes.readingSd);
  const start = from?.posterior.converged
    ? Float64Array.from(scope.unknowns, (_, x) => from.posterior.u[x] ?? 0)
    : undefined;
  const posterior = believe(scope, observations, { start, effort, work: prior.work });
  return { prior, ...seen, scope, posterior, used, nextFilm };
}

/** The belief with this noise of the readings; starts from an earlier posterior where there is one. */
export function atReadingSd(belief: Belief, readingSd: number): Belief {
  const { prior, scope, posterior } = belief;
  return {
    ...belief,
    prior: { ...prior, sizes: { ...prior.sizes, readingSd } },
    posterior: believe(scope, observationsOf(belief, prior.model, readingSd), {
      start: posterior.converged ? posterior.u : undefined,
      work: prior.work,
    }),
  };
}

/**
 * Most toners of a pot that get curves of their own; in a pot of more, the smallest have next to no part in the
 * colour (design value).
 */
const MOST_CURVED = 30;

/** The toners there is most of in a card's pot. */
function mostOf(used: readonly number[], last: ReadCard | undefined): readonly number[] {
  if (!last || used.length <= MOST_CURVED) return used;
  const { grams } = last;
  return [...used].sort((a, b) => grams[b] - grams[a]).slice(0, MOST_CURVED);
}

/** Placed before all pots, so that no later pour or film affects it. */
function placeOfPanel(panel: number): number {
  return -1 - panel;
}

/** The one registry: every unknown that cards of a pot and panels may show, by owner. */
function scopeOf(prior: Prior, { cards, panels, shared }: Seen, further: readonly Unknown[]) {
  const { model, sizes, logStrength, covariance } = prior;
  const { toners, size } = model.coefficients;
  const all = Array.from({ length: toners }, (_, j) => j);
  const used = all.filter((j) => cards.some(({ grams }) => grams[j] > 0));
  // The toners of a panel count where light on it is asked for; elsewhere its own unknowns stand for their doubts.
  const isSeen = (j: number) =>
    used.includes(j) || panels.some(({ light, grams }) => light !== undefined && grams[j] > 0);
  const isOther = (j: number) => !used.includes(j);
  const place = createKinship(
    model,
    cards.map(({ grams }) => grams),
    sprayedAlike(model, used),
  );
  const poured = cards.map(({ grams }, c) =>
    grams.map((amount, j) => amount - (cards[c - 1]?.grams[j] ?? 0)),
  );
  const unknowns: readonly Unknown[] = [
    ...canUnknowns(covariance, [...used, ...all.filter(isOther)], size),
    ...tonerUnknowns(model, mostOf(all.filter(isSeen), cards[cards.length - 1]), sizes),
    ...paintUnknowns(model, { places: [...cards.keys()], used }, sizes),
    ...surfaceUnknowns(model, sizes),
    ...sprayUnknowns(model, { cards: cards.length, used }, sizes),
    ...cards.flatMap(({ reflectance }, c) => filmUnknowns(model, { place: c, reflectance }, sizes)),
    ...poured.flatMap((grams, c) => pourUnknowns({ place: c, poured: grams, size }, sizes)),
    ...panels.flatMap((panel, p) => panelUnknowns(model, { place: placeOfPanel(p), ...panel })),
    ...shared.instrument,
    ...shared.observers.values(),
    ...further,
  ];
  const films = [
    ...cards.map(({ grams }, c) => place(grams, c)),
    // A panel's paint is related to no pot, so its deviation is an unknown of its own; a faded formula is related to itself.
    ...panels.map(({ grams, light }, p) => ({
      place: placeOfPanel(p),
      grams,
      kinship: light ? place(grams, cards.length).kinship : new Float64Array(cards.length),
      ...(light && { light }),
    })),
  ];
  return {
    scope: { model, strengths: logStrength.map(Math.exp), unknowns, films },
    used,
    nextFilm: (grams: Float64Array) => place(grams, cards.length),
  };
}
