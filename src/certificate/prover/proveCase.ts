import type { Multiplier, ProofCase, Tightening } from "../records/proof.js";
import { copyRanges, type Ranges } from "./bandEstimates.js";
import { largestRatio } from "./reach.js";
import {
  type Case,
  climbFrom,
  contradicts,
  createRows,
  ofRows,
  type Rows,
  readable,
  relax,
  type Setting,
} from "./relaxation.js";
import { type Looseness, looseness, type Question, rangeOf, tighten } from "./tighten.js";

/** How much work a proof may take. */
export interface Effort {
  /** Rounds of tightening before a case is split, and in every case after that. */
  readonly rounds: number;
  readonly roundsInCase: number;
  /** Splits in all. */
  readonly splits: number;
}

/** A case proved, and the measure that it proves. */
export interface ProvedCase {
  readonly proof: ProofCase;
  readonly bound: number;
}

/** A search for the proof of one case: what it knows, and what it may still spend. */
export interface CaseSearch {
  readonly setting: Setting;
  readonly effort: Effort;
  /** Adds directions to the setting that look from an aim to the mix at a corner of the relaxation. */
  lookAt(additions: Float64Array): void;
  splitsLeft: number;
}

/** Bands whose ranges are asked for in one round. */
const BANDS_PER_ROUND = 8;

/**
 * A round that leaves more than this share of the looseness gains little; after this many such rounds the case is
 * split.
 */
const DULL = 0.95;
const MOST_DULL_ROUNDS = 3;

/** Corners that directions are taken from at the end of a case. */
const MOST_CORNERS = 3;

/**
 * Proves a case: rows from the ranges, ranges from the rows, round by round, until the rows contradict one another or
 * nothing more comes of it; then the least measure that the rows allow; then, where that is below the level and splits
 * are left, two cases: K/S of the loosest band at most or at least the middle of its range.
 */
export function proveCase(search: CaseSearch, given: Ranges, cases: readonly Case[]): ProvedCase {
  const { setting, effort } = search;
  const { reach, level, work } = setting;
  const ranges = copyRanges(given);
  const rounds: (readonly Tightening[])[] = [];
  const patience = new Float64Array(reach.size).fill(1);
  const most = cases.length === 0 ? effort.rounds : effort.roundsInCase;
  let dull = 0;
  for (let round = 0; round < most && dull < MOST_DULL_ROUNDS && !work.isSpent(); round++) {
    const rows = createRows(setting, ranges, cases);
    const relaxation = relax(setting, rows, { isOpen: false });
    if (relaxation.farkas && contradicts(reach, rows, relaxation.farkas)) {
      return { proof: { rounds, end: relaxation.farkas }, bound: level * INWARD };
    }
    const before = loosenessOf(setting, ranges);
    const questions = loosest(before, patience);
    const found = tighten(setting, rows, relaxation, ranges, questions);
    if (found.length === 0) break;
    rounds.push(found);
    for (const { of, band, end, value } of found) rangeOf(ranges, of, end)[band] = value;
    for (let b = 0; b < reach.size; b++) patience[b] = Math.min(1, 1.5 * patience[b]);
    for (const band of new Set(questions.map((question) => question.band))) {
      patience[band] *= found.some((tightening) => tightening.band === band) ? 0.5 : 0.15;
    }
    dull = total(loosenessOf(setting, ranges)) > DULL * total(before) ? dull + 1 : 0;
  }
  const ended = endCase(search, ranges, cases);
  if (ended.bound >= level * INWARD || search.splitsLeft === 0 || work.isSpent()) {
    return { proof: { rounds, end: ended.end }, bound: ended.bound };
  }

  search.splitsLeft--;
  const { band, at } = whereToSplit(setting, ranges);
  const side = (end: Case["side"]): ProvedCase => {
    const part = copyRanges(ranges);
    (end === "low" ? part.qHigh : part.qLow)[band] = at;
    return proveCase(search, part, [...cases, { band, at, side: end }]);
  };
  const low = side("low");
  const high = side("high");
  const bound = Math.min(low.bound, high.bound);
  if (bound <= ended.bound) return { proof: { rounds, end: ended.end }, bound: ended.bound };
  return { proof: { rounds, split: { band, at, low: low.proof, high: high.proof } }, bound };
}

const total = (all: readonly Looseness[]): number =>
  all.reduce((sum, { ratio, scattering }) => sum + ratio + scattering, 0);

const loosenessOf = (setting: Setting, ranges: Ranges): readonly Looseness[] =>
  Array.from({ length: setting.reach.size }, (_, band) => looseness(setting, ranges, band));

/** A band's scattering is asked for when it is to blame for more than this part of the looseness of its ratio. */
const SCATTERING_MATTERS = 0.2;

/** Both ends of the bands that are loosest; those asked for lately wait, those that did not move wait longer. */
function loosest(all: readonly Looseness[], patience: Float64Array): readonly Question[] {
  const weight = (band: number) => patience[band] * (all[band].ratio + all[band].scattering);
  const ends = ["high", "low"] as const;
  return Array.from(all.keys())
    .sort((a, b) => weight(b) - weight(a))
    .slice(0, BANDS_PER_ROUND)
    .flatMap((band) => [
      ...ends.map((end) => ({ of: "ratio", band, end }) as const),
      ...(all[band].scattering > SCATTERING_MATTERS * all[band].ratio
        ? ends.map((end) => ({ of: "scattering", band, end }) as const)
        : []),
    ]);
}

/** The least measure that the rows allow, looking again from where they allow it. */
function endCase(
  { setting, lookAt }: CaseSearch,
  ranges: Ranges,
  cases: readonly Case[],
): { readonly bound: number; readonly end: readonly Multiplier[] } {
  const { reach, level } = setting;
  let best: { readonly bound: number; readonly end: readonly Multiplier[] } = { bound: 0, end: [] };
  const objective = new Float64Array(reach.columns + 1);
  objective[reach.columns] = -1;
  for (let corner = 0; corner < MOST_CORNERS && !setting.work.isSpent(); corner++) {
    const rows = createRows(setting, ranges, cases);
    const { dictionary, rowScale, scale } = relax(setting, rows, { isOpen: true });
    if (!dictionary) break;
    const { status, x, multipliers } = climbFrom(setting, dictionary, objective);
    if (status !== "optimal") break;
    const end = readable(ofRows(multipliers, rowScale, rows));
    const bound = Math.min(level, leastMeasure(setting, rows, end)) * INWARD;
    if (bound > best.bound) best = { bound, end };
    if (bound >= level * INWARD || !(x[0] > 0)) break;
    lookAt(Float64Array.from(reach.free, (_, i) => (x[i + 1] * scale[i + 1]) / (x[0] * scale[0])));
  }
  return best;
}

/** Rows say Σ y·functional ≤ Σ y·norm·measure·mean: what the measure is at least, over all additions. */
function leastMeasure({ reach }: Setting, rows: Rows, multipliers: readonly Multiplier[]): number {
  const negative = new Float64Array(reach.columns);
  let norm = 0;
  for (const [r, y] of multipliers) {
    norm += y * rows.norms[r];
    for (let c = 0; c < negative.length; c++) negative[c] -= y * rows.functionals[r][c];
  }
  return norm > 0 ? -largestRatio(reach, negative, reach.mean) / norm : 0;
}

/** Bounds are written down this much to the safe side. */
const INWARD = 1 - 1e-6;

/** The loosest band, at the geometric mean of its range: ranges of K/S span decades. */
function whereToSplit(setting: Setting, ranges: Ranges): { readonly band: number; readonly at: number } {
  const all = loosenessOf(setting, ranges);
  const band = all.reduce((most, { ratio }, b) => (ratio > all[most].ratio ? b : most), 0);
  const [low, high] = [ranges.qLow[band], ranges.qHigh[band]];
  return { band, at: Math.sqrt((low + LEAST_SHARE * high) * high) };
}

/** A range that begins at 0 counts as beginning at this share of its end. */
const LEAST_SHARE = 1e-4;
