import { sum } from "../core/sum.js";
import type { ForwardModel } from "../forward/forwardModel.js";
import type { Fault } from "./fault.js";
import type { Film } from "./film.js";
import type { ReadCard } from "./prior.js";
import type { Field, Unknown } from "./unknown.js";
import { roughCurve } from "./unknowns/roughCurve.js";

/** A fault as a card that has it: with other grams, or with unknowns that sound cards have not. */
export interface FaultModel {
  /** Share of all cards that have it. */
  readonly prior: number;
  readonly card: ReadCard;
  readonly unknowns: readonly Unknown[];
  /** Describes the fault, given the value of its first unknown. */
  readonly describe: (u: number) => Fault;
}

/** What the faults of one card are made from. */
export interface FaultSources {
  readonly model: ForwardModel;
  readonly card: ReadCard;
  /** Its place among the cards of its pot that count. */
  readonly place: number;
  /** Grams of each toner since the card before, from what was noted; ≤ 0 where nothing was poured. */
  readonly poured: Float64Array;
  /** Other pots of the same job that a card was read of. */
  readonly others: readonly { readonly name: string; readonly grams: Float64Array }[];
}

/** Share of cards with each kind of fault, and its size: no source. The rest are sound. */
const SHARES = Object.freeze({
  tenfold: 0.01,
  misPour: 0.03,
  notPoured: 0.005,
  wrongToner: 0.01,
  swapped: 0.005,
  spike: 0.005,
  offset: 0.005,
  other: 0.005,
});
const MIS_POUR_LOG_SD = 0.8;
const SPIKE_SD = 0.05;
const OFFSET_SD = 0.02;
const OTHER = Object.freeze({ ratioSd: 0.5, reflectanceSd: 0.05 });
/** Bands that stand out most from a smooth misfit are the ones tried for a spike. */
const SPIKES_TRIED = 3;

/** The share of cards that have no fault. */
export function soundShare(): number {
  return 1 - sum(Object.values(SHARES));
}

/** Every single fault that could explain the card. */
export function faultModels(sources: FaultSources): readonly FaultModel[] {
  return [...pourSlips(sources), ...swaps(sources), ...badReadings(sources)];
}

function pourSlips({ model, card, place, poured }: FaultSources): readonly FaultModel[] {
  const { toners } = model.set;
  const pours = [...poured.keys()].filter((j) => poured[j] > 0);
  const changed = (change: (grams: Float64Array) => void): ReadCard => {
    const grams = card.grams.slice();
    change(grams);
    return { ...card, grams };
  };
  const all = [...toners.keys()];
  return pours.flatMap((j): readonly FaultModel[] => {
    const { id } = toners[j];
    const noted = poured[j];
    const plain = { unknowns: [], prior: 0 };
    const others = all.filter((i) => i !== j);
    // The fit gives a factor on all of the toner; converted here to this one pour.
    const tooMuch = (u: number) =>
      Math.max(-noted, card.grams[j] * Math.expm1((MIS_POUR_LOG_SD * u * noted) / card.grams[j]));
    const misPoured = one(
      "strength",
      j,
      new Float64Array(model.coefficients.size).fill(MIS_POUR_LOG_SD),
      0,
      (film) => (film.place === place && film.grams[j] > 0 ? noted / film.grams[j] : 0),
    );
    return [
      ...[10, 0.1].map(
        (factor): FaultModel => ({
          ...plain,
          prior: SHARES.tenfold / 2 / pours.length,
          card: changed((grams) => {
            grams[j] += (factor - 1) * noted;
          }),
          describe: () => ({ kind: "tenfold", toner: id, noted, grams: (factor - 1) * noted }),
        }),
      ),
      {
        prior: SHARES.misPour / pours.length,
        card,
        unknowns: [misPoured],
        describe: (u: number): Fault => ({ kind: "mis-pour", toner: id, noted, grams: tooMuch(u) }),
      },
      {
        ...plain,
        prior: SHARES.notPoured / pours.length,
        card: changed((grams) => {
          grams[j] -= noted;
        }),
        describe: (): Fault => ({ kind: "not-poured", toner: id, grams: -noted }),
      },
      ...others.map(
        (i): FaultModel => ({
          ...plain,
          prior: SHARES.wrongToner / pours.length / others.length,
          card: changed((grams) => {
            grams[j] -= noted;
            grams[i] += noted;
          }),
          describe: () => ({ kind: "wrong-toner", toner: id, poured: toners[i].id, grams: noted }),
        }),
      ),
    ].filter(({ card: { grams } }) => canBeSeen(model, grams));
  });
}

/** Whether a pot scatters light at every band: else it is no paint. */
function canBeSeen({ coefficients: { size, s } }: ForwardModel, grams: Float64Array): boolean {
  for (let b = 0; b < size; b++) {
    if (!grams.some((amount, j) => amount > 0 && s[j * size + b] > 0)) return false;
  }
  return true;
}

function swaps({ card, others }: FaultSources): readonly FaultModel[] {
  return others.map(({ name, grams }) => ({
    prior: SHARES.swapped / others.length,
    card: { ...card, grams },
    unknowns: [],
    describe: () => ({ kind: "swapped-card", card: name }),
  }));
}

function badReadings({ model, card, place }: FaultSources): readonly FaultModel[] {
  const { geometries, set } = model;
  const { count, start, step } = set.grid;
  const own = (film: Film) => (film.place === place ? 1 : 0);
  const size = card.reflectance.length;
  // Colours alone tell no bad band from another paint.
  const spikes = (card.isExpected ? [] : mostUneven(card.reflectance, count)).map(
    (band): FaultModel => ({
      prior: SHARES.spike / size,
      card,
      unknowns: [one("offset", -1, new Float64Array(1).fill(SPIKE_SD), band, own)],
      describe: () => ({
        kind: "spike",
        geometry: geometries[Math.floor(band / count)],
        wavelength: start + (band % count) * step,
      }),
    }),
  );
  const offsets = (card.isExpected ? [] : geometries).map(
    (geometry, g): FaultModel => ({
      prior: SHARES.offset / geometries.length,
      card,
      unknowns: [one("offset", -1, new Float64Array(count).fill(OFFSET_SD), g * count, own)],
      describe: () => ({ kind: "offset", geometry }),
    }),
  );
  const curve = roughCurve(set.grid);
  const smooth = (field: Field, sd: number) =>
    geometries.flatMap((_, g) =>
      curve.map((shape) =>
        one(
          field,
          -1,
          shape.map((height) => sd * height),
          g * count,
          own,
        ),
      ),
    );
  return [
    ...spikes,
    ...offsets,
    {
      prior: SHARES.other,
      card,
      unknowns: [...smooth("ratio", OTHER.ratioSd), ...smooth("offset", OTHER.reflectanceSd)],
      describe: () => ({ kind: "other" }),
    },
  ];
}

function one(
  field: Field,
  toner: number,
  shape: Float64Array,
  from: number,
  share: (film: Film) => number,
): Unknown {
  return { owner: "film", effects: [{ field, toner, from, shape, share }] };
}

/** Bands with the largest fourth differences: near zero for a smooth spectrum, six times its height at a spike. */
function mostUneven(reflectance: Float64Array, count: number): readonly number[] {
  const unevenness = reflectance.map((_, i) => {
    const b = i % count;
    const at = (step: number) => reflectance[i + Math.max(-b, Math.min(count - 1 - b, step))];
    return Math.abs(at(-2) - 4 * at(-1) + 6 * at(0) - 4 * at(1) + at(2));
  });
  return [...reflectance.keys()].sort((a, b) => unevenness[b] - unevenness[a]).slice(0, SPIKES_TRIED);
}
