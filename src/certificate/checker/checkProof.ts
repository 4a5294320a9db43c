import type { Lab } from "../../colorimetry/lab.js";
import type { Problem } from "../../problem/problem.js";
import type { Proof, ProofCase, Tightening } from "../records/proof.js";
import { isShown } from "./differenceClaim.js";
import { type Form, type MixForms, mixForms, mostRatio, sumOf } from "./mixForms.js";
import { addUp, proofRows, type Rows, type Setting, type SplitRow, withinOf } from "./proofRows.js";
import { type BandRange, inverseF } from "./underColour.js";

/** Says what is wrong with a proof, or nothing. */
export type Fault = string | undefined;

/** Largest relative difference between a value that follows and the one written down. */
const CLOSE = 1e-5;

/** Splits one within the other. */
const DEEPEST = 40;

/**
 * Follows a proof step by step with arithmetic of its own: the boxes and directions from CIEDE2000, each range from the
 * rows and ranges before it, each end from the rows of its case.
 */
export function checkProof(problem: Problem, proof: Proof): Fault {
  const { goal, model } = problem;
  const { level, bound, boxes, reference } = proof;
  if (!(bound >= 0 && bound <= level && level > 0)) return "the bound does not lie between 0 and the level";
  if (boxes.length !== goal.aims.length) return "not one box per aim";
  const ids = model.set.toners.map(({ id }) => id);
  if (Object.keys(reference).some((id) => !ids.includes(id))) return "the reference names an unknown toner";
  const additions = ids.map((id) => (Object.hasOwn(reference, id) ? reference[id] : 0));
  if (!additions.every((grams) => grams >= 0 && Number.isFinite(grams))) return "the reference is no mix";
  const fault = boxFault(problem, proof) ?? directionFault(problem, proof);
  if (fault) return fault;
  const forms = mixForms(problem, additions);
  return caseFault({ problem, proof, forms }, proof.root, startRanges(forms), []);
}

const AXES: readonly Lab[] = [
  [1 / 116, 1 / 500, 0],
  [1 / 116, 0, 0],
  [1 / 116, 0, -1 / 200],
];

/** Every box must hold all colours within the level of its aim. */
function boxFault({ goal }: Problem, proof: Proof): Fault {
  for (const [i, box] of proof.boxes.entries()) {
    if (!box) continue;
    const { lab } = goal.aims[i];
    const within = proof.level * withinOf(proof, goal.aims[i]);
    for (const [axis, n] of AXES.entries()) {
      const here = (lab[0] + 16) / 116 + n[1] * lab[1] + n[2] * lab[2];
      for (const sign of [1, -1]) {
        const end = sign > 0 ? box.high[axis] : box.low[axis];
        const reach = sign * (forward(end) - here);
        const along = n.map((value) => sign * value) as unknown as Lab;
        if (!isShown({ target: lab, n: along, most: reach / within, within })) return `box ${i} is too small`;
      }
      if (!(box.high[axis] > box.low[axis])) return `box ${i} is empty`;
    }
  }
  return undefined;
}

/** f of CIE 1976 as the inverse of its inverse: found by halving, so that a box is held to one formula only. */
function forward(value: number): number {
  let [low, high] = [-2, 3];
  for (let halving = 0; halving < 60; halving++) {
    const middle = (low + high) / 2;
    if (inverseF(middle) > value) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}

/** The norm of a direction must not be below what CIEDE2000 shows. */
function directionFault({ goal }: Problem, proof: Proof): Fault {
  for (const [d, { along, norms }] of proof.directions.entries()) {
    if (along.length !== goal.aims.length || norms.length !== along.length)
      return `direction ${d} is malformed`;
    for (const [i, n] of along.entries()) {
      if (n.every((value) => value === 0)) continue;
      if (!proof.boxes[i]) return `direction ${d} looks at an aim that is left out`;
      const within = proof.level * withinOf(proof, goal.aims[i]);
      if (!isShown({ target: goal.aims[i].lab, n, most: norms[i], within }))
        return `direction ${d} promises too much`;
    }
  }
  return undefined;
}

/** The ranges that follow from stock and room alone. */
function startRanges(forms: MixForms): readonly BandRange[] {
  const negative = (form: Form) => form.map((value) => -value);
  const range = (top: Form, bottom: Form) =>
    [Math.max(0, -mostRatio(forms, negative(top), bottom)), mostRatio(forms, top, bottom)] as const;
  return forms.absorption.map((absorbs, band) => ({
    ratio: range(absorbs, forms.scattering[band]),
    scattering: range(forms.scattering[band], forms.mean),
  }));
}

function caseFault(
  setting: Setting,
  { rounds, end, split }: ProofCase,
  given: readonly BandRange[],
  splits: readonly SplitRow[],
): Fault {
  const { proof, forms } = setting;
  let ranges = given;
  for (const round of rounds) {
    const rows = proofRows(setting, ranges, splits);
    const next = ranges.map((range) => ({ ...range }));
    for (const tightening of round) {
      const fault = tighteningFault(setting, rows, tightening);
      if (fault) return fault;
      const { of, band, end: side, value } = tightening;
      const [low, high] = next[band][of];
      next[band] = {
        ...next[band],
        [of]: side === "low" ? [Math.max(low, value), high] : [low, Math.min(high, value)],
      };
    }
    ranges = next;
  }
  if (split) return splitFault(setting, split, ranges, splits);
  if (!end) return proof.bound === 0 ? undefined : "a case has no end";
  const sum = addUp(proofRows(setting, ranges, splits), end, forms.mean.length);
  if (!sum) return "an end has unsound multipliers";
  // form ≤ norm·measure·mean: a contradiction for every measure below the bound.
  const least = -mostRatio(
    forms,
    sum.form.map((value) => -value),
    forms.mean,
  );
  return least >= proof.bound * sum.norm && (least > 0 || proof.bound === 0)
    ? undefined
    : "an end does not follow";
}

function splitFault(
  setting: Setting,
  split: NonNullable<ProofCase["split"]>,
  ranges: readonly BandRange[],
  splits: readonly SplitRow[],
): Fault {
  const { band, at, low, high } = split;
  const { forms } = setting;
  if (splits.length >= DEEPEST || !Number.isInteger(band) || !ranges[band] || !(at > 0))
    return "a split is malformed";
  const side = (sign: number, ratio: readonly [number, number], part: ProofCase): Fault =>
    caseFault(
      setting,
      part,
      ranges.map((range, b) => (b === band ? { ...range, ratio } : range)),
      [
        ...splits,
        sumOf(
          [
            [sign, forms.absorption[band]],
            [-sign * at, forms.scattering[band]],
          ],
          forms.mean.length,
        ),
      ],
    );
  const [from, to] = ranges[band].ratio;
  return side(1, [from, Math.min(at, to)], low) ?? side(-1, [Math.max(at, from), to], high);
}

/** A range follows when the form it bounds, less the rows with their multipliers at the level, stays on its side. */
function tighteningFault(
  { proof, forms }: Setting,
  rows: Rows,
  { of, band, end, value, multipliers }: Tightening,
): Fault {
  const known =
    of === "ratio" ? forms.absorption[band] : of === "scattering" ? forms.scattering[band] : undefined;
  if (!known || (end !== "low" && end !== "high")) return "a range is malformed";
  const sum = addUp(rows, multipliers, known.length);
  if (!sum) return "a range has unsound multipliers";
  const sign = end === "high" ? 1 : -1;
  const bottom = of === "ratio" ? forms.scattering[band] : forms.mean;
  const top = sumOf(
    [
      [sign, known],
      [-1, sum.form],
      [proof.level * sum.norm, forms.mean],
    ],
    known.length,
  );
  const follows = sign * mostRatio(forms, top, bottom);
  const written = Math.max(0, follows);
  const isClose = Math.abs(written - value) <= CLOSE * Math.max(Math.abs(value), LEAST);
  return isClose && sign * (value - follows) >= 0
    ? undefined
    : `the ${end} ${of} of band ${band} does not follow`;
}

/** Ranges this near to 0 are held to it. */
const LEAST = 1e-6;
