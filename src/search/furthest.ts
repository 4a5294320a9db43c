/**
 * A subset with the bound b by a linear model is searched while b·(1 − SHARE − CURVE·b) − FLOOR is below the best
 * score; SHARE + CURVE·b is at most MOST_SHARE. This allows for the error of a model made linear at another mix, and
 * is held by comparison with exhaustive search.
 */
const SHARE = 0.35;
const CURVE = 0.5;
const FLOOR = 0.005;
const MOST_SHARE = 0.8;

/** Beyond this distance, in ΔE00, linear models are not trusted: every subset is searched. */
export const FAR = 3;

/**
 * The largest bound by a linear model that may still lead to a score. In a large cup the same colour may be had by a
 * new pot around the old one, which a linear model puts far away: there the largest error is always allowed for.
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
