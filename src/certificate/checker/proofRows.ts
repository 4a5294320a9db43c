import { sum } from "../../core/sum.js";
import type { Aim } from "../../problem/goal.js";
import type { Problem } from "../../problem/problem.js";
import type { Direction, Multiplier, Proof } from "../records/proof.js";
import { type Form, type MixForms, sumOf } from "./mixForms.js";
import { type BandRange, reflectanceLines, underColour, underDistance } from "./underColour.js";

/** The data that all cases of a proof share. */
export interface Setting {
  readonly problem: Problem;
  readonly proof: Proof;
  readonly forms: MixForms;
}

/** ΔE00 of an aim at most, where the measure is `measure`. */
export const withinOf = ({ measure }: Proof, { weight, allowed }: Aim): number =>
  measure === "weighted" ? 1 / Math.sqrt(weight) : allowed;

/** n·(Lab − Lab_aim) over all aims is at most this times the measure: by Cauchy and Schwarz, or every aim at its limit. */
function mostAlong({ goal }: Problem, proof: Proof, { along, norms }: Direction): number {
  const terms = along.map((n, i) =>
    n.some((value) => value !== 0) ? norms[i] * withinOf(proof, goal.aims[i]) : 0,
  );
  return proof.measure === "weighted" ? Math.hypot(...terms) : sum(terms);
}

/** A split above a case, as a row that is ≤ 0 in it. */
export type SplitRow = Form;

/** Rows as forms F with F ≤ norm·measure·mean. */
export interface Rows {
  readonly forms: readonly Form[];
  readonly norms: readonly number[];
}

/** The rows of a case, with the ranges known there. */
export function proofRows(
  { problem, proof, forms }: Setting,
  ranges: readonly BandRange[],
  splits: readonly SplitRow[],
): Rows {
  const { aims } = problem.goal;
  const lines = reflectanceLines(problem, forms, ranges);
  const nothing = forms.mean.map(() => 0);
  const sides = aims.flatMap((aim, i) => {
    const box = proof.boxes[i];
    if (!box) return new Array<Form>(6).fill(nothing);
    return [0, 1, 2].flatMap((axis) => {
      const only = (value: number) => [0, 1, 2].map((other) => (other === axis ? value : 0));
      return [
        underColour(problem, forms, lines, aim, { factors: only(1), constant: -box.high[axis] }),
        underColour(problem, forms, lines, aim, { factors: only(-1), constant: box.low[axis] }),
      ];
    });
  });
  const distances = proof.directions.map(({ along }) => {
    const parts = along.flatMap((n, i): [number, Form][] => {
      const box = proof.boxes[i];
      return box && n.some((value) => value !== 0)
        ? [[1, underDistance(problem, forms, lines, aims[i], { box, towards: n })]]
        : [];
    });
    return sumOf(parts, nothing.length);
  });
  return {
    forms: [...splits, ...sides, ...distances],
    norms: [
      ...[...splits, ...sides].map(() => 0),
      ...proof.directions.map((direction) => mostAlong(problem, proof, direction)),
    ],
  };
}

/** Σ multiplier·row and Σ multiplier·norm; undefined where a multiplier is negative or not finite. */
export function addUp(
  rows: Rows,
  multipliers: readonly Multiplier[],
  length: number,
): { form: Form; norm: number } | undefined {
  const isSound = multipliers.every(
    ([row, value]) =>
      Number.isInteger(row) && row >= 0 && row < rows.forms.length && value >= 0 && Number.isFinite(value),
  );
  if (!isSound) return undefined;
  return {
    form: sumOf(
      multipliers.map(([row, value]) => [value, rows.forms[row]]),
      length,
    ),
    norm: multipliers.reduce((sum, [row, value]) => sum + value * rows.norms[row], 0),
  };
}
