import type { Grid } from "../../spectra/grid.js";
import type { Geometry } from "../../surface/geometry.js";
import type { Toner } from "../../toners/toner.js";
import type { CardModel } from "./potModel.js";
import { smoothModes } from "./smoothModes.js";

/** What may have gone wrong with a card; grams and reflectance are what was too much (negative: too little). */
export type Fault =
  | { readonly kind: "mis-pour"; readonly toner: string; readonly grams: number }
  | { readonly kind: "not-poured"; readonly toner: string; readonly grams: number }
  | { readonly kind: "wrong-toner"; readonly toner: string; readonly poured: string; readonly grams: number }
  | { readonly kind: "swapped-card"; readonly card: string }
  | { readonly kind: "spike"; readonly geometry: Geometry; readonly wavelength: number }
  | { readonly kind: "offset"; readonly geometry: Geometry }
  | { readonly kind: "other" };

/** A fault as a card model that has it, with its share of all cards beforehand. */
export interface FaultModel {
  readonly prior: number;
  readonly model: CardModel;
  /** Puts into numbers what the fit found, given the multiplier of the mis-pour. */
  readonly describe: (misPour: number) => Fault;
}

/** How often cards are faulty, by kind, and how badly: no source. What is left is sound. */
const SHARES = {
  misPour: 0.03,
  notPoured: 0.005,
  wrongToner: 0.01,
  swapped: 0.005,
  spike: 0.005,
  offset: 0.005,
  other: 0.005,
};
const MIS_POUR_LOG_SD = 0.5;
const SPIKE_SD = 0.05;
const OFFSET_SD = 0.02;
const OTHER = { modes: 8, ratioSd: 0.5, reflectanceSd: 0.05 };
/** Bands that stand out most from a smooth misfit are the ones tried for a spike. */
const SPIKES_TRIED = 3;

/** The share of cards that have no fault. */
export function soundShare(): number {
  return 1 - Object.values(SHARES).reduce((sum, share) => sum + share, 0);
}

/** What the faults of one card are made from. */
export interface FaultSources {
  readonly toners: readonly Toner[];
  readonly geometries: readonly Geometry[];
  readonly grid: Grid;
  readonly card: CardModel;
  /** Grams of each toner since the card before, from what was noted; ≤ 0 where nothing was poured. */
  readonly poured: Float64Array;
  /** Other pots of the same job that a card was read of. */
  readonly others: readonly { readonly name: string; readonly grams: Float64Array }[];
}

/** Every single fault that could explain the card. */
export function faultModels(sources: FaultSources): readonly FaultModel[] {
  return [...pourFaults(sources), ...swaps(sources), ...badReadings(sources)];
}

function pourFaults({ toners, card, poured }: FaultSources): readonly FaultModel[] {
  const pours = [...poured.keys()].filter((j) => poured[j] > 0);
  const changed = (change: (grams: Float64Array) => void): CardModel => {
    const grams = card.grams.slice();
    change(grams);
    return { ...card, grams };
  };
  const hasPaint = ({ model }: FaultModel) => model.grams.some((grams) => grams > 0);
  return pours.flatMap((j) => {
    const { id } = toners[j];
    const grams = poured[j];
    const others = [...toners.keys()].filter((i) => i !== j);
    return [
      {
        prior: SHARES.misPour / pours.length,
        model: { ...card, misPour: { toner: j, poured: grams, sd: MIS_POUR_LOG_SD } },
        describe: (u: number): Fault => ({
          kind: "mis-pour",
          toner: id,
          grams: grams * Math.expm1(MIS_POUR_LOG_SD * u),
        }),
      },
      {
        prior: SHARES.notPoured / pours.length,
        model: changed((all) => {
          all[j] -= grams;
        }),
        describe: (): Fault => ({ kind: "not-poured", toner: id, grams: -grams }),
      },
      ...others.map((i) => ({
        prior: SHARES.wrongToner / pours.length / others.length,
        model: changed((all) => {
          all[j] -= grams;
          all[i] += grams;
        }),
        describe: (): Fault => ({ kind: "wrong-toner", toner: id, poured: toners[i].id, grams }),
      })),
    ].filter(hasPaint);
  });
}

function swaps({ card, others }: FaultSources): readonly FaultModel[] {
  return others.map(({ name, grams }) => ({
    prior: SHARES.swapped / others.length,
    model: { ...card, grams },
    describe: (): Fault => ({ kind: "swapped-card", card: name }),
  }));
}

function badReadings({ geometries, grid, card }: FaultSources): readonly FaultModel[] {
  const { count } = grid;
  const withOffset = (offset: Float64Array): CardModel => ({ ...card, offsets: [...card.offsets, offset] });
  const spikes = mostUneven(card.reflectance, count).map((band) => {
    const spike = new Float64Array(card.reflectance.length);
    spike[band] = SPIKE_SD;
    return {
      prior: SHARES.spike / card.reflectance.length,
      model: withOffset(spike),
      describe: (): Fault => ({
        kind: "spike",
        geometry: geometries[Math.floor(band / count)],
        wavelength: grid.start + (band % count) * grid.step,
      }),
    };
  });
  const offsets = geometries.map((geometry, g) => ({
    prior: SHARES.offset / geometries.length,
    model: withOffset(new Float64Array(card.reflectance.length).fill(OFFSET_SD, g * count, (g + 1) * count)),
    describe: (): Fault => ({ kind: "offset", geometry }),
  }));
  const smooth = (sd: number) => smoothModes(grid, { geometries: geometries.length, modes: OTHER.modes, sd });
  const other = {
    ...card,
    shapes: [...card.shapes, ...smooth(OTHER.ratioSd)],
    offsets: [...card.offsets, ...smooth(OTHER.reflectanceSd)],
  };
  return [
    ...spikes,
    ...offsets,
    { prior: SHARES.other, model: other, describe: (): Fault => ({ kind: "other" }) },
  ];
}

/** Bands of the largest fourth differences: a smooth spectrum has none, a spike has six times its height. */
function mostUneven(reflectance: Float64Array, count: number): readonly number[] {
  const unevenness = reflectance.map((_, i) => {
    const b = i % count;
    const at = (step: number) => reflectance[i + Math.max(-b, Math.min(count - 1 - b, step))];
    return Math.abs(at(-2) - 4 * at(-1) + 6 * at(0) - 4 * at(1) + at(2));
  });
  return [...reflectance.keys()].sort((a, b) => unevenness[b] - unevenness[a]).slice(0, SPIKES_TRIED);
}
