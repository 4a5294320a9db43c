import type { Lab } from "../../colorimetry/lab.js";

/** n·(Lab − target) ≤ most·ΔE00(target, Lab) for every colour within `within` of the target. */
export interface DifferenceClaim {
  readonly target: Lab;
  readonly n: Lab;
  readonly most: number;
  readonly within: number;
}

/** Lower and upper end. */
type Range = readonly [number, number];

/** Halvings one within the other of the (a*, b*) plane before a claim counts as not shown. */
const DEEPEST = 44;

/** Parts of the plane looked at for one claim; those of the prover take 128 in the median and 256 at most. */
const MOST_PARTS = 20_000;

const SLACK = 1e-11;
const TURN = 2 * Math.PI;

/**
 * Checks a claim about CIEDE2000 by halving the plane of (a*, b*) until every part of it is too far away, or lies
 * behind the target, or satisfies the claim by the range of S_C, S_H, R_T and the mean hue there; lightness has a term
 * of its own. The formula's terms are written out here once more, apart from the rest of the package. A claim that would
 * take more than `mostParts` parts counts as not shown: a certificate from a stranger costs a bounded time.
 */
export function isShown({ target, n, most, within }: DifferenceClaim, mostParts = MOST_PARTS): boolean {
  if (n.every((value) => value === 0)) return true;
  const [lightness, a, b] = target;
  // |ΔL*| ≤ within·S_L ≤ 1.75·within.
  const lightest = Math.max(weightL(lightness), weightL(lightness + (Math.sign(n[0]) * 1.75 * within) / 2));
  const rest = most * most - (n[0] * lightest) ** 2;
  if (rest < 0) return false;
  const plane: Plane = { a, b, na: n[1], nb: n[2], square: rest * (1 + SLACK), within };
  // |R_T| ≤ √3, so ΔE00 ≥ half of ΔC′/S_C and of ΔH′/S_H; S_C, S_H ≤ 1 + 0.045·C̄′; C′ ≤ 1.5·C*.
  const chroma = 1.5 * Math.hypot(a, b);
  if (!(0.045 * within < 0.95)) return false;
  const furthest = (4 * within * (1 + 0.045 * chroma)) / (1 - 0.045 * within);
  const budget = { parts: mostParts };
  return holds({ plane, budget }, [0, Math.hypot(a, b) + furthest], [-Math.PI, Math.PI], 0);
}

interface Walk {
  readonly plane: Plane;
  readonly budget: { parts: number };
}

interface Plane {
  readonly a: number;
  readonly b: number;
  readonly na: number;
  readonly nb: number;
  readonly square: number;
  readonly within: number;
}

function holds(walk: Walk, chroma: Range, hue: Range, depth: number): boolean {
  if (--walk.budget.parts < 0) return false;
  if (isSettled(walk.plane, chroma, hue)) return true;
  if (depth === DEEPEST) return false;
  const middle = (range: Range) => (range[0] + range[1]) / 2;
  const isWide = (chroma[1] - chroma[0]) * 1.2 > chroma[1] * (hue[1] - hue[0]);
  if (isWide) {
    const at = middle(chroma);
    return holds(walk, [chroma[0], at], hue, depth + 1) && holds(walk, [at, chroma[1]], hue, depth + 1);
  }
  const at = middle(hue);
  return holds(walk, chroma, [hue[0], at], depth + 1) && holds(walk, chroma, [at, hue[1]], depth + 1);
}

/** Whether a part of the plane cannot break the claim. */
function isSettled({ a, b, na, nb, square, within }: Plane, chroma: Range, hue: Range): boolean {
  const cosine = cosines(hue);
  const sine = cosines([hue[0] - Math.PI / 2, hue[1] - Math.PI / 2]);
  const sampleA = times(chroma, cosine);
  const sampleB = times(chroma, sine);
  const ahead = Math.max(na * sampleA[0], na * sampleA[1]) + Math.max(nb * sampleB[0], nb * sampleB[1]);
  if (ahead <= na * a + nb * b) return true;

  const c1 = Math.hypot(a, b);
  const stretch: Range = [stretchAt((c1 + chroma[1]) / 2), stretchAt((c1 + chroma[0]) / 2)];
  const first: Range = [Math.hypot(stretch[0] * a, b), Math.hypot(stretch[1] * a, b)];
  const squareCosine = squared(cosine);
  const second: Range = [
    chroma[0] * Math.sqrt(1 + (stretch[0] ** 2 - 1) * squareCosine[0]),
    chroma[1] * Math.sqrt(1 + (stretch[1] ** 2 - 1) * squareCosine[1]),
  ];
  const mean: Range = [(first[0] + second[0]) / 2, (first[1] + second[1]) / 2];
  const secondHue = spanOf(stretch.flatMap((g) => hue.map((h) => stretchedHue(h, g))));
  const near = Math.atan2(b, a);
  const onTurn = near + TURN * Math.round(((hue[0] + hue[1]) / 2 - near) / TURN);
  const firstHue = spanOf(stretch.map((g) => stretchedHue(onTurn, g)));
  const turn: Range = [secondHue[0] - firstHue[1], secondHue[1] - firstHue[0]];
  const meanHue: Range = [(firstHue[0] + secondHue[0]) / 2, (firstHue[1] + secondHue[1]) / 2];
  const isOneSided = turn[0] > -Math.PI + 1e-6 && turn[1] < Math.PI - 1e-6;

  const sC: Range = [1 + 0.045 * mean[0], 1 + 0.045 * mean[1]];
  // Hues half a turn apart: the mean may lie on either side.
  const opposite: Range = [meanHue[0] + Math.PI, meanHue[1] + Math.PI];
  const means = isOneSided ? [meanHue] : [meanHue, opposite];
  const t = spanOf(means.flatMap(hueTerm));
  const sH: Range = [1 + 0.015 * mean[0] * t[0], 1 + 0.015 * mean[1] * t[1]];
  const rT = spanOf(means.flatMap((hues) => rotationOver(mean, hues)));

  const apart = Math.max(0, second[0] - first[1], first[0] - second[1]) / sC[1];
  const turned = Math.max(0, Math.min(turn[0], TURN - turn[1]), Math.min(-turn[1], TURN + turn[0]));
  const around = (2 * Math.sqrt(first[0] * second[0]) * Math.sin(turned / 2)) / sH[1];
  const together = (1 + rT[0] / 2) * (apart * apart + around * around);
  const either = (1 - rT[0] ** 2 / 4) * Math.max(apart, around) ** 2;
  if (Math.max(together, either) > within * within * (1 + SLACK)) return true;

  const length = (na / stretch[0]) ** 2 + nb * nb;
  if ((length * Math.max(sC[1], sH[1]) ** 2) / (1 + rT[0] / 2) <= square) return true;
  if (!isOneSided || first[0] === 0 || second[0] === 0) return false;

  // In the frame of the mean hue: n·d = [outward·cos(Δh/2)·S_C]·ΔC′/S_C + [across·S_H·(C₁+C₂)/(2√(C₁C₂))]·ΔH′/S_H.
  const nA: Range = na >= 0 ? [na / stretch[1], na / stretch[0]] : [na / stretch[0], na / stretch[1]];
  const meanCosine = cosines(meanHue);
  const meanSine = cosines([meanHue[0] - Math.PI / 2, meanHue[1] - Math.PI / 2]);
  const outward = plus(times(nA, meanCosine), times([nb, nb], meanSine));
  const across = plus(times([nb, nb], meanCosine), times([-nA[1], -nA[0]], meanSine));
  const halfTurn = Math.cos(Math.max(Math.abs(turn[0]), Math.abs(turn[1])) / 2);
  const uneven = Math.max(unevenness(second[0] / first[1]), unevenness(second[1] / first[0]));
  const x = times(outward, times([halfTurn, 1], sC));
  const y = times(across, times([1, uneven], sH));
  return x.every((p) =>
    y.every((w) => rT.every((r) => (p * p + w * w - r * p * w) / (1 - (r * r) / 4) <= square)),
  );
}

const plus = (u: Range, v: Range): Range => [u[0] + v[0], u[1] + v[1]];
const spanOf = (values: readonly number[]): Range => [Math.min(...values), Math.max(...values)];
const times = (u: Range, v: Range): Range => spanOf([u[0] * v[0], u[0] * v[1], u[1] * v[0], u[1] * v[1]]);
const squared = ([low, high]: Range): Range => {
  const ends = [low * low, high * high];
  return [low <= 0 && high >= 0 ? 0 : Math.min(...ends), Math.max(...ends)];
};

function cosines([low, high]: Range): Range {
  const passes = (at: number) => Math.ceil((low - at) / TURN) <= Math.floor((high - at) / TURN);
  const ends = [Math.cos(low), Math.cos(high)];
  return [passes(Math.PI) ? -1 : Math.min(...ends), passes(0) ? 1 : Math.max(...ends)];
}

const weightL = (mean: number): number => 1 + (0.015 * (mean - 50) ** 2) / Math.sqrt(20 + (mean - 50) ** 2);
const stretchAt = (mean: number): number => 1 + 0.5 * (1 - Math.sqrt(mean ** 7 / (mean ** 7 + 25 ** 7)));
const unevenness = (ratio: number): number => (1 + ratio) / (2 * Math.sqrt(ratio));

function stretchedHue(hue: number, g: number): number {
  const turned = Math.atan2(Math.sin(hue), g * Math.cos(hue));
  return turned + TURN * Math.round((hue - turned) / TURN);
}

const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** T = 1 − 0.17cos(h−30°) + 0.24cos(2h) + 0.32cos(3h+6°) − 0.20cos(4h−63°), term by term. */
function hueTerm([low, high]: Range): Range {
  const term = (factor: number, times: number, shift: number): Range => {
    const range = cosines([times * low + radians(shift), times * high + radians(shift)]);
    return factor > 0 ? [factor * range[0], factor * range[1]] : [factor * range[1], factor * range[0]];
  };
  return [term(-0.17, 1, -30), term(0.24, 2, 0), term(0.32, 3, 6), term(-0.2, 4, -63)].reduce(plus, [1, 1]);
}

/** R_T = −2√(C̄⁷/(C̄⁷+25⁷))·sin(60°·exp(−((h̄−275°)/25°)²)), h̄ in 0…360°. */
function rotationOver(mean: Range, [low, high]: Range): Range {
  const degrees = (radian: number) => (radian * 180) / Math.PI;
  const pieces: Range[] = [-720, -360, 0, 360, 720]
    .map((shift): Range => [Math.max(0, degrees(low) + shift), Math.min(360, degrees(high) + shift)])
    .filter(([from, to]) => from <= to);
  const away = pieces.flatMap(([from, to]) => [Math.abs(from - 275), Math.abs(to - 275)]);
  const nearest = pieces.some(([from, to]) => from <= 275 && to >= 275) ? 0 : Math.min(...away);
  const at = (chroma: number, distance: number) =>
    -2 *
    Math.sqrt(chroma ** 7 / (chroma ** 7 + 25 ** 7)) *
    Math.sin(radians(60) * Math.exp(-((distance / 25) ** 2)));
  return [at(mean[1], nearest), at(mean[0], Math.max(...away))];
}
