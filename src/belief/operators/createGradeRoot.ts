import { normalDensity, normalProbability } from "../../numeric/probability/normalProbability.js";

/** An eye's noise: share of the difference, and a floor in ΔE (design values; docs/evidence.md). */
const NOISE = 0.3;
const THRESHOLD = 0.5;
/** How often a grade is said by mistake, whatever was seen (design value). */
const LAPSE = 0.02;

/** Nearer to the likeliest difference than this the slope is that of the parabola there. */
const NEAR = 1e-3;
const STEP = 1e-4;

/**
 * Beyond this many sd r is continued as a straight line, so that a first guess far from what was seen still
 * converges.
 */
const STRAIGHT = 2;
/** No difference looks larger, ΔE. */
const FURTHEST = 200;
const GOLDEN = (Math.sqrt(5) - 1) / 2;
const HALVINGS = 60;

/** Sd of what an eye says of a difference w. */
export function eyeSd(w: number): number {
  return Math.sqrt((NOISE * w) ** 2 + THRESHOLD ** 2);
}

/** Signed root deviance, and its slope by what the difference looks like. */
export interface GradeRoot {
  readonly root: number;
  readonly slope: number;
}

/**
 * How a difference w fits the grade that stands for `low` … `high`: r = ±√(2(L(w) − L(w*))), L = −ln P,
 * P = (1 − ε)(Φ((high − w)/σ) − Φ((low − w)/σ)) + ε, σ² = (0.3w)² + 0.5², w* the likeliest. Beyond |r| = 2 straight on.
 * Source for the form: the ordered probit (McCullagh 1980).
 */
export function createGradeRoot({
  low,
  high,
}: {
  readonly low: number;
  readonly high: number;
}): (w: number) => GradeRoot {
  const look = (w: number) => {
    const sd = eyeSd(w);
    const sdSlope = (NOISE * NOISE * w) / sd;
    const at = (bound: number) => {
      const z = (bound - w) / sd;
      return { share: normalProbability(z), slope: normalDensity(z) * (-1 / sd - (z * sdSlope) / sd) };
    };
    const [upper, lower] = [at(high), at(low)];
    const probability = (1 - LAPSE) * (upper.share - lower.share) + LAPSE;
    return {
      loss: -Math.log(probability),
      slope: (-(1 - LAPSE) * (upper.slope - lower.slope)) / probability,
    };
  };
  let [left, right] = [low, high];
  for (let n = 0; n < HALVINGS; n++) {
    const inner = GOLDEN * (right - left);
    if (look(right - inner).loss < look(left + inner).loss) right = left + inner;
    else left = right - inner;
  }
  const likeliest = (left + right) / 2;
  const least = look(likeliest).loss;
  const bend = (look(likeliest + STEP).slope - look(likeliest - STEP).slope) / (2 * STEP);
  const steepness = Math.sqrt(Math.max(0, bend));
  const near = (w: number): GradeRoot => {
    const away = w - likeliest;
    if (Math.abs(away) < NEAR) return { root: steepness * away, slope: steepness };
    const { loss, slope } = look(w);
    const root = Math.sign(away) * Math.sqrt(2 * Math.max(0, loss - least));
    return { root, slope: root === 0 ? steepness : slope / root };
  };
  const ends = [-1, 1].map((side) => {
    let [inside, outside] = [likeliest, likeliest + side * FURTHEST];
    for (let n = 0; n < HALVINGS; n++) {
      const middle = (inside + outside) / 2;
      if (Math.abs(near(middle).root) < STRAIGHT) inside = middle;
      else outside = middle;
    }
    return inside;
  });
  return (w) => {
    const end = Math.min(ends[1], Math.max(ends[0], w));
    if (end === w) return near(w);
    const { root, slope } = near(end);
    return { root: root + slope * (w - end), slope };
  };
}
