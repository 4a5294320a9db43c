import { checkInteger, checkNumber } from "../../core/check.js";
import { InputError } from "../../core/InputError.js";

export interface FindRootOptions {
  /** "bracket": the root lies within tolerance + 4ε·|x| of x. */
  readonly tolerance?: number;
  /** Largest number of calls of f. */
  readonly maxEvaluations?: number;
}

export const FIND_ROOT_DEFAULTS: Required<FindRootOptions> = Object.freeze({
  tolerance: 0,
  maxEvaluations: 200,
});

export interface FindRootResult {
  /** The point of least |f| of those that bracket the root. */
  readonly x: number;
  readonly value: number;
  readonly evaluations: number;
  readonly stopReason: "zero" | "bracket" | "evaluation-limit" | "not-finite";
  readonly converged: boolean;
}

/**
 * A root of a continuous f between low and high, where f has opposite signs (or is zero).
 * Inverse quadratic interpolation where the last three points allow it, bisection elsewhere: never many more steps
 * than bisection, seldom more than ten for a smooth f.
 * Throws `not-finite` for an end or a value there that is not finite; `out-of-range` if low > high or the signs agree.
 * Source: Chandrupatla (1997).
 */
export function findRoot(
  f: (x: number) => number,
  low: number,
  high: number,
  options: FindRootOptions = {},
): FindRootResult {
  const settings = { ...FIND_ROOT_DEFAULTS, ...options };
  checkNumber(settings.tolerance, "tolerance", { min: 0 });
  checkInteger(settings.maxEvaluations, "maxEvaluations", { min: 2 });
  checkNumber(low, "low");
  checkNumber(high, "high", { min: low });

  // a is the newest point, [a, b] brackets the root, c is the point that was replaced last.
  let a = high;
  let b = low;
  let fa = checkNumber(f(a), "f(high)");
  let fb = checkNumber(f(b), "f(low)");
  let evaluations = 2;
  if (Math.sign(fa) * Math.sign(fb) > 0) {
    throw new InputError("out-of-range", "low", `f has the same sign at ${low} (${fb}) and ${high} (${fa})`);
  }
  let c = a;
  let fc = fa;
  let fraction = 0.5;

  for (;;) {
    const [x, value] = Math.abs(fa) < Math.abs(fb) ? [a, fa] : [b, fb];
    const report = (stopReason: FindRootResult["stopReason"]): FindRootResult => ({
      x,
      value,
      evaluations,
      stopReason,
      converged: stopReason === "zero" || stopReason === "bracket",
    });
    if (value === 0) return report("zero");
    const nearest = (2 * Number.EPSILON * Math.abs(x) + settings.tolerance / 2) / Math.abs(b - a);
    if (nearest >= 0.5) return report("bracket");
    if (evaluations >= settings.maxEvaluations) return report("evaluation-limit");

    fraction = Math.min(Math.max(fraction, nearest), 1 - nearest);
    const next = a + fraction * (b - a);
    const fNext = f(next);
    evaluations++;
    if (!Number.isFinite(fNext)) return report("not-finite");

    if (Math.sign(fNext) === Math.sign(fa)) {
      [c, fc] = [a, fa];
    } else {
      [c, fc] = [b, fb];
      [b, fb] = [a, fa];
    }
    [a, fa] = [next, fNext];
    fraction = interpolate([a, b, c], [fa, fb, fc]);
  }
}

type Three = readonly [number, number, number];

/** Where between a (0) and b (1) the inverse parabola through three points is zero; ½ where it is no guide. */
function interpolate([a, b, c]: Three, [fa, fb, fc]: Three): number {
  const xi = (a - b) / (c - b);
  const phi = (fa - fb) / (fc - fb);
  if (!(phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi)) return 0.5;
  return (fa / (fb - fa)) * (fc / (fb - fc)) + ((c - a) / (b - a)) * (fa / (fc - fa)) * (fb / (fc - fb));
}
