import { sum } from "../core/sum.js";
import type { ForwardModel } from "../forward/forwardModel.js";
import { colourObservation } from "./operators/colourObservation.js";
import { comparisonObservation } from "./operators/comparisonObservation.js";
import type { Observation } from "./operators/observation.js";
import { reflectanceObservation } from "./operators/reflectanceObservation.js";
import type { SeenPanel } from "./panel.js";
import type { ReadCard } from "./prior.js";
import type { Unknown } from "./unknown.js";
import { instrumentUnknowns, observerUnknown } from "./unknowns/instrument.js";

/** What was seen, and what all that was seen by one instrument or one eye has in common. */
export interface Seen {
  readonly cards: readonly ReadCard[];
  readonly panels: readonly SeenPanel[];
  readonly shared: Shared;
}

/** Unknowns that are no film's; `instrument` of L*, a*, b*, none where no colour was seen. */
export interface Shared {
  readonly instrument: readonly Unknown[];
  readonly observers: ReadonlyMap<string, Unknown>;
}

/** One bias of the instrument that saw colours, one gain for every observer that compared. */
export function sharedUnknowns(cards: readonly ReadCard[], panels: readonly SeenPanel[]): Shared {
  const hasColours = [...cards, ...panels].some(({ colours = [] }) => colours.length > 0);
  const observers = new Set(panels.flatMap(({ comparisons }) => comparisons.map(({ observer }) => observer)));
  return {
    instrument: hasColours ? instrumentUnknowns() : [],
    observers: new Map([...observers].map((name) => [name, observerUnknown()])),
  };
}

/** A posterior has as many equations as rows; neighbouring bands of a fine grid say the same (design value). */
const MOST_ROWS = 400;

/** Stride over so many bands: 1 unless there are very many. */
const strideOver = (bands: number): number => Math.max(1, Math.ceil(bands / MOST_ROWS));

/** Stride over the bands of the cards. */
export function strideOf(cards: readonly ReadCard[]): number {
  return strideOver(sum(cards.map((card) => (card.isExpected ? 0 : card.reflectance.length))));
}

/**
 * Everything that was seen, in units of its noise; `sd` that of one band of a spectrum. Geometry by geometry, since next to
 * nothing but paint is common to two; within one cards first, then panels.
 */
export function observationsOf(
  { cards, panels, shared }: Seen,
  { set, geometries }: ForwardModel,
  sd: number,
): readonly Observation[] {
  const { count } = set.grid;
  const ofCards = strideOf(cards);
  const ofPanels = strideOver(count * sum(panels.map(({ spectra }) => spectra.length)));
  const all = [
    ...cards.flatMap(({ reflectance, isExpected = false, colours = [] }, film) => [
      ...(isExpected ? [] : geometries).map((_, geometry) => {
        const from = geometry * count;
        const read = reflectance.subarray(from, from + count);
        return reflectanceObservation(film, read, sd, { geometry, from, stride: ofCards });
      }),
      ...colours.map((colour) => colourObservation(film, colour, shared.instrument)),
    ]),
    ...panels.flatMap(({ spectra, colours, comparisons }, p) => {
      const film = cards.length + p;
      return [
        ...spectra.map(({ geometry, reflectance }) =>
          reflectanceObservation(film, reflectance, sd, {
            geometry,
            from: geometry * count,
            stride: ofPanels,
          }),
        ),
        ...colours.map((colour) => colourObservation(film, colour, shared.instrument)),
        ...comparisons.map((one) =>
          comparisonObservation(film, one, shared.observers.get(one.observer) as Unknown),
        ),
      ];
    }),
  ];
  return all.sort((a, b) => a.geometry - b.geometry);
}
