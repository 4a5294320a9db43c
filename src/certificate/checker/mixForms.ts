import type { Problem } from "../../problem/problem.js";

/** A linear form of the additions: a constant, then what one gram of each toner adds. */
export type Form = readonly number[];

/** The additions that the limits of a job allow, and absorption and scattering of the mix as linear forms of them. */
export interface MixForms {
  readonly most: readonly number[];
  readonly room: number;
  /** One per band over all geometries, divided by the scattering of the reference mix. */
  readonly absorption: readonly Form[];
  readonly scattering: readonly Form[];
  /** Mean of `scattering` over the bands. */
  readonly mean: Form;
  /** K/S of the reference mix. */
  readonly reference: readonly number[];
}

/** `reference`: additions in the order of the toner set. */
export function mixForms({ model, bench }: Problem, reference: readonly number[]): MixForms {
  const { toners, size, k, s } = model.coefficients;
  const { scale, ghost } = model.anchor;
  const all = Array.from({ length: toners }, (_, j) => j);
  const at = (form: Form, grams: readonly number[]) =>
    grams.reduce((sum, g, j) => sum + form[j + 1] * g, form[0]);
  const absorption: Form[] = [];
  const scattering: Form[] = [];
  const ratios: number[] = [];
  for (let band = 0; band < size; band++) {
    const absorbs = all.map((j) => scale[band] * k[j * size + band]);
    const scatters = all.map((j) => s[j * size + band]);
    const inPot = (each: readonly number[]) => each.reduce((sum, value, j) => sum + value * bench.pot[j], 0);
    const forK = [Math.max(0, inPot(absorbs) + ghost[band]), ...absorbs];
    const forS = [inPot(scatters), ...scatters];
    const unit = at(forS, reference);
    absorption.push(forK.map((value) => value / unit));
    scattering.push(forS.map((value) => value / unit));
    ratios.push(at(forK, reference) / unit);
  }
  const mean = [0, ...all].map((_, c) => scattering.reduce((sum, form) => sum + form[c], 0) / size);
  const most = all.map((j) => Math.min(bench.stock[j], bench.room));
  return { most, room: bench.room, absorption, scattering, mean, reference: ratios };
}

export const sumOf = (terms: readonly (readonly [factor: number, form: Form])[], length: number): Form => {
  const sum = new Array<number>(length).fill(0);
  for (const [factor, form] of terms) for (let c = 0; c < length; c++) sum[c] += factor * form[c];
  return sum;
};

/** What rounding may do to a form, as a share of the size of its terms. */
const ROUNDING = 1e-11;

/** The largest value of a form over the additions allowed: pour what raises it most, as far as stock and room go. */
function fill({ most, room }: MixForms, form: Form): readonly number[] {
  const grams = new Array<number>(form.length - 1).fill(0);
  let left = room;
  const byGain = grams.map((_, j) => j).filter((j) => form[j + 1] > 0);
  byGain.sort((i, j) => form[j + 1] - form[i + 1]);
  for (const j of byGain) {
    grams[j] = Math.min(left, most[j]);
    left -= grams[j];
  }
  return grams;
}

/**
 * An upper bound, tight but for rounding, on top/bottom over the additions allowed; bottom > 0 for all of them. A ratio
 * is at most `guess` exactly when top − guess·bottom has no value above 0; the guess climbs from addition to addition.
 */
export function mostRatio(forms: MixForms, top: Form, bottom: Form): number {
  const value = (form: Form, grams: readonly number[]) =>
    grams.reduce((sum, g, j) => sum + g * form[j + 1], form[0]);
  const size = (form: Form, grams: readonly number[]) =>
    grams.reduce((sum, g, j) => sum + Math.abs(g * form[j + 1]), Math.abs(form[0]));
  let grams: readonly number[] = forms.most.map(() => 0);
  for (let round = 0; round < 200; round++) {
    const guess = value(top, grams) / value(bottom, grams);
    const next = fill(
      forms,
      sumOf(
        [
          [1, top],
          [-guess, bottom],
        ],
        top.length,
      ),
    );
    const reached = value(top, next) / value(bottom, next);
    if (!(reached > guess + ROUNDING * Math.abs(guess))) {
      return (
        guess + (ROUNDING * (size(top, next) + Math.abs(guess) * size(bottom, next))) / value(bottom, next)
      );
    }
    grams = next;
  }
  return Number.POSITIVE_INFINITY;
}
