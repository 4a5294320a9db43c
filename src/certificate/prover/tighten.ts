import { reflectivityFromRatio } from "../../optics/infiniteFilm.js";
import { measuredReflectance } from "../../surface/saunderson.js";
import type { Multiplier, Tightening } from "../records/proof.js";
import type { Ranges } from "./bandEstimates.js";
import { bandFunctional, type Functional, largestRatio } from "./reach.js";
import {
  climbFrom,
  lessRows,
  ofRows,
  type Relaxation,
  type Rows,
  readable,
  type Setting,
} from "./relaxation.js";

/** A range that is narrower by less than this share is not worth a line of proof. */
const LEAST_GAIN = 0.02;

/** Programmes solved for one end of a range at most. */
const MOST_TURNS = 3;

/** Where the next programme could gain less than this share, the last one will do. */
const NEAR = 0.01;

/** An end of a range that may be made narrower. */
export interface Question {
  readonly of: Tightening["of"];
  readonly band: number;
  readonly end: Tightening["end"];
}

/** What a range costs: how far its estimates may be from the truth. */
export interface Looseness {
  readonly ratio: number;
  readonly scattering: number;
}

/**
 * How much the estimates of a band may be off, in X + Y + Z over all lights: a secant over its curve, and McCormick's
 * inequalities over the range of its scattering.
 */
export function looseness(
  { model, optics }: Setting,
  { qLow, qHigh, sLow, sHigh }: Ranges,
  b: number,
): Looseness {
  const bands = model.set.grid.count;
  const surface = optics.surfaces[Math.floor(b / bands)];
  const seen = (q: number) => measuredReflectance(reflectivityFromRatio(q), surface);
  const [low, high] = [seen(qLow[b]), seen(qHigh[b])];
  const bend = (low + high) / 2 - seen((qLow[b] + qHigh[b]) / 2);
  const slack = ((low - high) * (sHigh[b] / sLow[b] - 1)) / 4;
  let weight = 0;
  for (const { tristimulus } of model.lights) {
    const { x, y, z, white } = tristimulus;
    const i = b % bands;
    weight += Math.abs(x[i]) / white[0] + Math.abs(y[i]) / white[1] + Math.abs(z[i]) / white[2];
  }
  return { ratio: weight * bend, scattering: weight * slack };
}

/**
 * One round: for the bands whose estimates are loosest, what the rows say of the ends of their ranges. Each answer is
 * a linear programme (two or three, by Newton's way, since K/S is a ratio), and holds by its multipliers alone.
 */
export function tighten(
  setting: Setting,
  rows: Rows,
  { dictionary, scale, rowScale }: Relaxation,
  ranges: Ranges,
  questions: readonly Question[],
): readonly Tightening[] {
  const { reach, optics, work } = setting;
  const found: Tightening[] = [];
  if (!dictionary) return found;
  const objective = new Float64Array(reach.columns);
  const numerator = new Float64Array(reach.columns);
  const scattering = new Float64Array(reach.columns);
  const rest = new Float64Array(reach.columns);
  for (const { of, band, end } of questions) {
    if (work.isSpent()) break;
    const sign = end === "high" ? 1 : -1;
    bandFunctional(reach, of === "ratio" ? reach.k : reach.s, band, numerator);
    bandFunctional(reach, reach.s, band, scattering);
    const denominator = of === "ratio" ? scattering : reach.mean;
    for (let c = 0; c < numerator.length; c++) numerator[c] *= sign;
    const [low, high] = [rangeOf(ranges, of, "low")[band], rangeOf(ranges, of, "high")[band]];
    const worthIt = (end === "high" ? high : -low) - LEAST_GAIN * (high - low);
    let guess = sign * (of === "ratio" ? optics.reference[band] : 1);
    let best = Number.POSITIVE_INFINITY;
    let multipliers: readonly Multiplier[] = [];
    for (let turn = 0; turn < MOST_TURNS; turn++) {
      for (let c = 0; c < objective.length; c++)
        objective[c] = (numerator[c] - guess * denominator[c]) * scale[c];
      const answer = climbFrom(setting, dictionary, objective);
      if (answer.status !== "optimal") break;
      const tried = ofRows(answer.multipliers, rowScale, rows);
      lessRows(rows, numerator, tried, rest);
      const value = largestRatio(reach, rest, denominator);
      if (value < best) {
        best = value;
        multipliers = tried;
      }
      const there = ratioAt(numerator, denominator, answer.x, scale);
      if (there > worthIt || best - there < NEAR * Math.abs(best)) break;
      guess = there;
    }
    if (!(best < worthIt)) continue;
    const written = readable(multipliers);
    lessRows(rows, numerator, written, rest);
    best = largestRatio(reach, rest, denominator);
    const value = Math.max(0, sign * (best + OUTWARD * Math.abs(best)));
    if (sign * value < worthIt) found.push({ of, band, end, value, multipliers: written });
  }
  return found;
}

/** Values are written down this much to the safe side. */
const OUTWARD = 1e-6;

export function rangeOf(ranges: Ranges, of: Tightening["of"], end: Tightening["end"]): Float64Array {
  if (of === "ratio") return end === "high" ? ranges.qHigh : ranges.qLow;
  return end === "high" ? ranges.sHigh : ranges.sLow;
}

function ratioAt(
  numerator: Functional,
  denominator: Functional,
  x: Float64Array,
  scale: Float64Array,
): number {
  let top = 0;
  let bottom = 0;
  for (let c = 0; c < numerator.length; c++) {
    top += numerator[c] * x[c] * scale[c];
    bottom += denominator[c] * x[c] * scale[c];
  }
  return top / bottom;
}
