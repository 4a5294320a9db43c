import { ciede2000Weights, hueAngle, redGreenStretch } from "../../colorimetry/ciede2000.js";
import type { Lab } from "../../colorimetry/lab.js";

/** Lower and upper end. */
export type Interval = readonly [low: number, high: number];

/**
 * A part of the (a*, b*) plane where colours within some ΔE00 of a target may lie, with the range there of all that
 * CIEDE2000 is made of. Angles in radians.
 */
interface Cell {
  readonly chroma: Interval;
  readonly hue: Interval;
  /** 1 + G */
  readonly stretch: Interval;
  readonly meanHue: Interval;
  readonly sC: Interval;
  readonly sH: Interval;
  readonly rT: Interval;
  /** (C₁ + C₂)/(2√(C₁C₂)) at most; ∞ where the hues may be opposite: then only the length of (a′, b′) counts. */
  readonly spread: number;
  /** cos(Δh′/2) at least. */
  readonly cosine: number;
}

/** What is known of CIEDE2000 within `within` of a target; made by `differenceCells`. */
export interface DifferenceCells {
  readonly lab: Lab;
  readonly within: number;
  readonly cells: readonly Cell[];
  /** S_L at most, where the colour is darker and where it is lighter than the target. */
  readonly sL: Interval;
}

/** Beyond this distance from a target no bound is attempted: the cells would cover the whole plane. */
export const FARTHEST = 10;

const TURN = 2 * Math.PI;
const DEGREE = Math.PI / 180;

/** Cells of less than this share of the distance, in about ΔE00, are not halved. */
const SMALL = 0.5;

/** Rounding of all sums here, outward. */
const OUTWARD = 1 + 1e-12;

/** T ≤ 1 + 0.17 + 0.24 + 0.32 + 0.20. */
const MOST_T = 1.93;

/** |T″| ≤ 0.17 + 4·0.24 + 9·0.32 + 16·0.20. */
const MOST_BEND = 7.21;

/**
 * Cells of chroma × hue that cover every colour with ΔE00 ≤ within of the target, for 0 < within ≤ FARTHEST. As
 * |R_T| ≤ √3, ΔE00² ≥ (ΔC′/S_C)²/4 and (ΔH′/S_H)²/4, which bounds the cells; those that lie farther away are left out.
 */
export function differenceCells(lab: Lab, within: number): DifferenceCells {
  const [lightness, a, b] = lab;
  const chroma = Math.hypot(a, b);
  const stretched = redGreenStretch(chroma / 2) * chroma;
  const dC = (2 * within * (1 + 0.045 * stretched)) / (1 - 0.045 * within);
  const dH = 2 * within * (1 + 0.015 * MOST_T * (stretched + dC / 2));
  const far = Math.hypot(dC, dH);
  const hue = hueAngle(a, b);
  const half = chroma > far ? Math.asin(far / chroma) : Math.PI;
  const cells: Cell[] = [];
  cover(lab, within, [Math.max(0, chroma - far), chroma + far], [hue - half, hue + half], cells);
  // S_L ≤ 1.75 for 0 ≤ L* ≤ 100, and no paint lies beyond.
  const mostSL = (to: number) =>
    Math.max(...[0, to].map((dL) => ciede2000Weights(lightness + dL / 2, 0, 0).sL));
  return { lab, within, cells, sL: [mostSL(-1.75 * within), mostSL(1.75 * within)] };
}

/** Halves a part of the plane until it is small, leaving out what is too far away. */
function cover(lab: Lab, within: number, chroma: Interval, hue: Interval, into: Cell[]): void {
  const cell = cellAt(lab, chroma, hue, within);
  if (!cell) return;
  const wide = (chroma[1] - chroma[0]) / (1 + 0.045 * chroma[0]);
  const long = (chroma[1] * (hue[1] - hue[0])) / (1 + 0.015 * chroma[1]);
  if (Math.max(wide, long) < SMALL * within) {
    into.push(cell);
    return;
  }
  const halves = ([low, high]: Interval): readonly Interval[] => [
    [low, (low + high) / 2],
    [(low + high) / 2, high],
  ];
  if (wide > long) for (const half of halves(chroma)) cover(lab, within, half, hue, into);
  else for (const half of halves(hue)) cover(lab, within, chroma, half, into);
}

function cellAt([, a1, b1]: Lab, chroma: Interval, hue: Interval, within: number): Cell | undefined {
  const c1 = Math.hypot(a1, b1);
  const stretch = [redGreenStretch((c1 + chroma[1]) / 2), redGreenStretch((c1 + chroma[0]) / 2)] as const;
  const target = [0, 1].map((i) => Math.hypot(stretch[i] * a1, b1));
  const cosines = squaredCosine(hue);
  const sample = [
    chroma[0] * Math.sqrt(1 + (stretch[0] ** 2 - 1) * cosines[0]),
    chroma[1] * Math.sqrt(1 + (stretch[1] ** 2 - 1) * cosines[1]),
  ];
  const hues = stretch.flatMap((g) => [stretchedHue(hue[0], g), stretchedHue(hue[1], g)]);
  // The target's hue on the same turn as the cell's.
  const first = hueAngle(a1, b1);
  const near = first + TURN * Math.round(((hue[0] + hue[1]) / 2 - first) / TURN);
  const targets = stretch.map((g) => stretchedHue(near, g));
  const turn = [Math.min(...hues) - Math.max(...targets), Math.max(...hues) - Math.min(...targets)] as const;
  const meanHue = [
    (Math.min(...hues) + Math.min(...targets)) / 2,
    (Math.max(...hues) + Math.max(...targets)) / 2,
  ] as const;
  const meanChroma = [(target[0] + sample[0]) / 2, (target[1] + sample[1]) / 2] as const;
  const mayBeOpposite = Math.max(Math.abs(turn[0]), Math.abs(turn[1])) >= Math.PI - 1e-6;
  // Hues half a turn apart: their mean may lie on either side.
  const means = mayBeOpposite ? [meanHue, [meanHue[0] + Math.PI, meanHue[1] + Math.PI] as const] : [meanHue];
  const sC = [1 + 0.045 * meanChroma[0], 1 + 0.045 * meanChroma[1]] as const;
  const t = hull(means.map(hueWeight));
  const sH = [1 + 0.015 * meanChroma[0] * t[0], 1 + 0.015 * meanChroma[1] * t[1]] as const;
  const rT = hull(means.map((mean) => rotation(meanChroma, mean)));

  const dC = Math.max(0, sample[0] - target[1], target[0] - sample[1]) / sC[1];
  const leastTurn = Math.max(0, Math.min(turn[0], TURN - turn[1]), Math.min(-turn[1], TURN + turn[0]));
  const dH = (2 * Math.sqrt(sample[0] * target[0]) * Math.sin(leastTurn / 2)) / sH[1];
  const least = Math.max((1 + rT[0] / 2) * (dC * dC + dH * dH), (1 - rT[0] ** 2 / 4) * Math.max(dC, dH) ** 2);
  if (least > within * within * OUTWARD) return undefined;

  const ratios = [sample[0] / target[1], sample[1] / target[0]];
  const spread = mayBeOpposite ? Number.POSITIVE_INFINITY : Math.max(...ratios.map(overGeometricMean));
  const cosine = Math.cos(Math.min(Math.PI, Math.max(Math.abs(turn[0]), Math.abs(turn[1]))) / 2);
  return { chroma, hue, stretch, meanHue, sC, sH, rT, spread, cosine };
}

const hull = (intervals: readonly Interval[]): Interval => [
  Math.min(...intervals.map(([low]) => low)),
  Math.max(...intervals.map(([, high]) => high)),
];

/** (1 + r)/(2√r); ∞ where there is no ratio. */
const overGeometricMean = (r: number) =>
  r > 0 && Number.isFinite(r) ? (1 + r) / (2 * Math.sqrt(r)) : Number.POSITIVE_INFINITY;

/** The hue of (g·cos h, sin h), on the same turn as h. */
function stretchedHue(hue: number, g: number): number {
  const turned = Math.atan2(Math.sin(hue), g * Math.cos(hue));
  return turned + TURN * Math.round((hue - turned) / TURN);
}

/** The range of cos² over an interval of hues. */
function squaredCosine([low, high]: Interval): Interval {
  const ends = [Math.cos(low) ** 2, Math.cos(high) ** 2];
  const has = (start: number) => Math.ceil((low - start) / Math.PI) <= Math.floor((high - start) / Math.PI);
  return [has(Math.PI / 2) ? 0 : Math.min(...ends), has(0) ? 1 : Math.max(...ends)];
}

/** T of CIEDE2000 over an interval of hues: Taylor with its largest second derivative. */
function hueWeight([low, high]: Interval): Interval {
  const h = (low + high) / 2;
  const half = (high - low) / 2;
  const at = (sH: number) => (sH - 1) / 0.015;
  const step = 1e-4;
  const t = at(ciede2000Weights(50, 1, h).sH);
  const slope =
    (at(ciede2000Weights(50, 1, h + step).sH) - at(ciede2000Weights(50, 1, h - step).sH)) / (2 * step);
  const off = (Math.abs(slope) + 1e-6) * half + (MOST_BEND / 2) * half * half + 1e-9;
  return [Math.max(0, t - off), Math.min(MOST_T, t + off)];
}

/** R_T over intervals of mean chroma and mean hue; never above 0. */
function rotation(chroma: Interval, [low, high]: Interval): Interval {
  const turns = TURN * Math.floor((low + high) / 2 / TURN);
  const degrees = [low - turns, high - turns].map((h) => h / DEGREE);
  let nearest = Number.POSITIVE_INFINITY;
  let farthest = 0;
  // The formula takes hues from 0 to 360: an interval across 0 is split there.
  for (const shift of [-360, 0, 360]) {
    const from = Math.max(0, degrees[0] + shift);
    const to = Math.min(360, degrees[1] + shift);
    if (from > to) continue;
    nearest = Math.min(nearest, Math.max(0, from - 275, 275 - to));
    farthest = Math.max(farthest, Math.abs(from - 275), Math.abs(to - 275));
  }
  const at = (c: number, away: number) => {
    const seventh = (c / 25) ** 7;
    return -2 * Math.sqrt(seventh / (seventh + 1)) * Math.sin(60 * DEGREE * Math.exp(-((away / 25) ** 2)));
  };
  return [at(chroma[1], nearest), at(chroma[0], farthest)];
}

/**
 * H such that n·(Lab − Lab_target) ≤ H·ΔE00 for every colour within the cells' distance of the target.
 * In the frame of the mean hue, (Δa′, Δb′) has the parts ΔC′·cos(Δh′/2) and ΔH′·(C₁+C₂)/(2√(C₁C₂)) [C], so that n·d is
 * linear in the three terms of CIEDE2000, and H² = n_L²S_L² + the largest over the cells of pᵀB⁻¹p, B the form with R_T.
 */
export function differenceNorm({ lab, cells, sL }: DifferenceCells, [nL, na, nb]: Lab): number {
  const byLightness = nL * (nL < 0 ? sL[0] : sL[1]);
  const direction = hueAngle(na, nb);
  const length = Math.hypot(na, nb);
  const toTarget = na * lab[1] + nb * lab[2];
  let most = 0;
  for (const cell of cells) {
    if (length * mostAlong(cell, direction) <= toTarget) continue;
    most = Math.max(most, squaredNorm(cell, na, nb));
  }
  return Math.sqrt(byLightness * byLightness + most) * OUTWARD;
}

/** The largest part of a cell's colours along a hue. */
function mostAlong({ chroma, hue }: Cell, direction: number): number {
  const middle = (hue[0] + hue[1]) / 2;
  const away = Math.abs(direction - middle - TURN * Math.round((direction - middle) / TURN));
  const cosine = Math.cos(Math.max(0, away - (hue[1] - hue[0]) / 2));
  return cosine * (cosine > 0 ? chroma[1] : chroma[0]);
}

function squaredNorm({ stretch, meanHue, sC, sH, rT, spread, cosine }: Cell, na: number, nb: number): number {
  const length = (na / stretch[0]) ** 2 + nb * nb;
  // By the least eigenvalue of the form in (ΔC′, ΔH′), since |(ΔC′, ΔH′)| = |(Δa′, Δb′)|.
  const plain = (length * Math.max(sC[1], sH[1]) ** 2) / (1 + rT[0] / 2);
  if (!Number.isFinite(spread)) return plain;
  const half = (meanHue[1] - meanHue[0]) / 2;
  const middle = (meanHue[0] + meanHue[1]) / 2;
  const g = (1 / stretch[0] + 1 / stretch[1]) / 2;
  const off = Math.sqrt(length) * half + Math.abs(na) * (1 / stretch[0] - g);
  const outward = na * g * Math.cos(middle) + nb * Math.sin(middle);
  const around = -na * g * Math.sin(middle) + nb * Math.cos(middle);
  let most = 0;
  for (const p of products(outward, off, [sC[0] * cosine, sC[1]])) {
    for (const w of products(around, off, [sH[0], sH[1] * spread])) {
      for (const r of rT) most = Math.max(most, (p * p + w * w - r * p * w) / (1 - (r * r) / 4));
    }
  }
  return Math.min(plain, most);
}

/** The ends of [middle ± off]·[low … high], 0 ≤ low: the form is convex, so it is largest at an end. */
function products(middle: number, off: number, [low, high]: Interval): Interval {
  const [from, to] = [middle - off, middle + off];
  return [from * (from < 0 ? high : low), to * (to > 0 ? high : low)];
}
