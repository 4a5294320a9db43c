/**
 * A subset is looked into while b·(1 − SHARE − CURVE·b) − FLOOR (SHARE + CURVE·b at most MOST_SHARE) is less than the best
 * score, b being its bound by the objective made linear at another mix: what that linear model may be off. Held by the
 * comparison with exhaustive search.
 */
const SHARE = 0.35;
const CURVE = 0.5;
const FLOOR = 0.005;
const MOST_SHARE = 0.8;

/** So far off, in ΔE00, a linear model says nothing: every subset is looked into. */
export const FAR = 3;

/**
 * The furthest bound by a linear model that is within reach of a score. In a vast cup the same colour may be had by
 * another pot around the old one, which a linear model sees far away: there the most that it may be off always counts.
 */
export function furthest(score: number, isVast: boolean): number {
  if (score > FAR) return Number.POSITIVE_INFINITY;
  const bar = score + FLOOR;
  const most = bar / (1 - MOST_SHARE);
  if (isVast) return most;
  const root = (1 - SHARE) ** 2 - 4 * CURVE * bar;
  const bent = root > 0 ? (1 - SHARE - Math.sqrt(root)) / (2 * CURVE) : Number.POSITIVE_INFINITY;
  return Math.min(bent, most);
}

/**
 * What is left at least, as a share of a linear model's residuals, of a mix within reach of a score by that model. Of a
 * loss of which one part is exact (paint and risk, a quadratic form of the pours) only the rest is multiplied by it.
 */
export function leastShare(score: number, isVast: boolean): number {
  return (score + FLOOR) / furthest(score, isVast);
}

/** Whether the squares of a mix by a form that counts its residuals for `leastShare` alone are within reach of a score. */
export function isInReach(squares: number, score: number): boolean {
  return score > FAR || squares <= (score + FLOOR) ** 2;
}
