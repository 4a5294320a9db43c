import type { Lab } from "../../colorimetry/lab.js";
import type { Problem } from "../../problem/problem.js";
import type { Form, MixForms } from "./mixForms.js";

/** Lower and upper end. */
export type Range = readonly [low: number, high: number];

/** What is known of one band: K/S, and its scattering over the mean of all bands. */
export interface BandRange {
  readonly ratio: Range;
  readonly scattering: Range;
}

/** constant + byMean·mean: what rounding may do to a coefficient, as a share of the size of its terms. */
const ROUNDING = 1e-13;

/** value·mean + byK·K + byS·S of one band. */
interface Line {
  readonly value: number;
  readonly byK: number;
  readonly byS: number;
}

/** Lines under and over the reflectance of every band, for mixes within the ranges. */
export interface ReflectanceLines {
  readonly under: readonly Line[];
  readonly over: readonly Line[];
}

/** A surface beyond these bends reflectance in ways that no tangent bounds: nothing is checked there. */
const KEPT = { least: -0.3, most: 0.99 };
const STEEPEST = 0.5;

/**
 * R = offset + c(1 − κ)R∞/(1 − κR∞) + shift with c = gain/(1 − k2), κ = k2 + rise(R∞ − ½), R∞ = 1 + q − √(q² + 2q) without
 * cancellation; and dR/dq. Convex and falling in q where R′ ≥ 0 and R″·R∞(1 − R∞²)/2 + R′ ≥ 0 by R∞, which holds for
 * −0.3 ≤ κ ≤ 0.99 and |rise| ≤ ½ (test/certificate/convexity); a NaN elsewhere fails every comparison that follows.
 */
export function reflectanceOf(
  { model }: Pick<Problem, "model">,
  band: number,
): { value(q: number): number; slope(q: number): number } {
  const { offset, gain, k2, rise = 0 } = model.surfaces[Math.floor(band / model.set.grid.count)];
  const ends = [k2 - rise / 2, k2 + rise / 2];
  const isConvex =
    Math.abs(rise) <= STEEPEST && ends.every((kept) => kept >= KEPT.least && kept <= KEPT.most);
  const through = isConvex ? gain / (1 - k2) : Number.NaN;
  const inside = (q: number) => 1 / (1 + q + Math.sqrt(q * q + 2 * q));
  const keptAt = (r: number) => k2 + rise * (r - 0.5);
  return {
    value: (q) => {
      const r = inside(q);
      return offset + (through * (1 - keptAt(r)) * r) / (1 - keptAt(r) * r) + model.anchor.shift[band];
    },
    slope: (q) => {
      const r = inside(q);
      const byInside = (through * (1 - keptAt(r) - rise * r * (1 - r))) / (1 - keptAt(r) * r) ** 2;
      return (byInside * -r) / Math.sqrt(q * q + 2 * q);
    },
  };
}

/**
 * A tangent at the reference mix (or the nearest end of the range) lies under the reflectance, which is convex in q; the
 * secant over the range lies over it. Both fall with q, so each needs q − q₀ bounded from one side by forms: with
 * e = q − q₀, K − q₀S = e·S, and e ∈ [e₀, e₁], s = S/mean ∈ [s₀, s₁], from (e − e₀)(s − s₀) ≥ 0, (e₁ − e)(s₁ − s) ≥ 0 for
 * the tangent, (e − e₀)(s₁ − s) ≥ 0, (e₁ − e)(s − s₀) ≥ 0 for the secant; the mean of the two that this gives.
 */
export function reflectanceLines(
  problem: Problem,
  forms: MixForms,
  ranges: readonly BandRange[],
): ReflectanceLines {
  const under: Line[] = [];
  const over: Line[] = [];
  ranges.forEach(({ ratio: [low, high], scattering: [thin, thick] }, band) => {
    const { value, slope } = reflectanceOf(problem, band);
    const touch = Math.max(1e-7, Math.min(high, Math.max(low, forms.reference[band])));
    const fall = high > low ? (value(high) - value(low)) / (high - low) : 0;
    const line = (at: number, byQ: number, ends: readonly (readonly [e: number, s: number])[]): Line => {
      // e·mean on the safe side of (K − q₀S − e·S + e·s·mean)/s.
      const share = byQ / ends.length;
      return {
        value: at + ends.reduce((sum, [e]) => sum + share * e, 0),
        byK: ends.reduce((sum, [, s]) => sum + share / s, 0),
        byS: ends.reduce((sum, [e, s]) => sum - (share * (touch + e)) / s, 0),
      };
    };
    const [first, last] = [low - touch, high - touch];
    under.push(
      line(value(touch), slope(touch), [
        [first, thin],
        [last, thick],
      ]),
    );
    over.push(
      line(value(low) + fall * (touch - low), fall, [
        [first, thick],
        [last, thin],
      ]),
    );
  });
  return { under, over };
}

/** A colour's box: X/Xn, Y/Yn and Z/Zn at least and at most. */
export interface Box {
  readonly low: readonly number[];
  readonly high: readonly number[];
}

/** Which colour of the model is meant. */
export interface Seen {
  readonly geometry: number;
  readonly light: number;
}

/** A form under (constant + Σ factors·(X/Xn, Y/Yn, Z/Zn))·mean. */
export function underColour(
  { model }: Problem,
  forms: MixForms,
  { under, over }: ReflectanceLines,
  { geometry, light }: Seen,
  { factors, constant }: { readonly factors: readonly number[]; readonly constant: number },
): Form {
  const { x, y, z, white } = model.lights[light].tristimulus;
  const length = forms.mean.length;
  const sum = new Array<number>(length).fill(0);
  const size = new Array<number>(length).fill(0);
  const add = (c: number, term: number) => {
    sum[c] += term;
    size[c] += Math.abs(term);
  };
  for (let c = 0; c < length; c++) add(c, constant * forms.mean[c]);
  for (let i = 0; i < x.length; i++) {
    const band = geometry * x.length + i;
    const factor =
      (factors[0] * x[i]) / white[0] + (factors[1] * y[i]) / white[1] + (factors[2] * z[i]) / white[2];
    const line = factor >= 0 ? under[band] : over[band];
    for (let c = 0; c < length; c++) {
      add(c, factor * line.value * forms.mean[c]);
      add(c, factor * line.byK * forms.absorption[band][c]);
      add(c, factor * line.byS * forms.scattering[band][c]);
    }
  }
  return sum.map((value, c) => value - ROUNDING * size[c]);
}

const THRESHOLD = (6 / 29) ** 3;

/** f of CIE 1976, its inverse and its slope. */
const f = (t: number): number => (t > THRESHOLD ? Math.cbrt(t) : (841 / 108) * t + 4 / 29);
export const inverseF = (value: number): number =>
  value > 6 / 29 ? value ** 3 : (108 / 841) * (value - 4 / 29);
const slopeF = (t: number): number => (t > THRESHOLD ? 1 / (3 * Math.cbrt(t) ** 2) : 841 / 108);

/**
 * A form under n·(Lab − target)·mean for colours in the box: L* = 116f(Y) − 16, a* = 500(f(X) − f(Y)),
 * b* = 200(f(Y) − f(Z)), f concave, so over its secant and under its tangent.
 */
export function underDistance(
  problem: Problem,
  forms: MixForms,
  lines: ReflectanceLines,
  seen: Seen & { readonly lab: Lab },
  { box: { low, high }, towards: [nL, na, nb] }: { readonly box: Box; readonly towards: Lab },
): Form {
  const byF = [500 * na, 116 * nL - 500 * na + 200 * nb, -200 * nb];
  const { lab } = seen;
  let constant = -16 * nL - nL * lab[0] - na * lab[1] - nb * lab[2];
  const factors = byF.map((factor, axis) => {
    const [from, to] = [low[axis], high[axis]];
    const at = factor > 0 ? from : (from + to) / 2;
    const slope = factor > 0 ? (f(to) - f(from)) / (to - from) : slopeF(at);
    constant += factor * (f(at) - slope * at);
    return factor * slope;
  });
  return underColour(problem, forms, lines, seen, { factors, constant });
}
