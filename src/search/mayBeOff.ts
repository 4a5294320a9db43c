/**
 * Assumed error of a linear model at the distance d (ΔE00, by the model) from the mix it was made at: the smaller of
 * BEND·d and BOW·d². Design values, tried against the exact model where a lattice is searched (`misjudged`) and held
 * by comparison with exhaustive search.
 */
const BEND = 0.5;
const BOW = 0.3;

export function mayBeOff(distance: number): number {
  return Math.min(BEND * distance, BOW * distance * distance);
}

/** The quadratic term alone: from far off a step may bring more than predicted, and the next one shows it. */
export function bowed(squaredDistance: number): number {
  return BOW * squaredDistance;
}

const MOST_STEPS = 8;

/**
 * The greatest d² at which √(rest + d²) less what the model may be off is no more than `score`, or a little more than
 * that; negative where there is none. d counts from the model's best point, `lead` from there to the mix where it is exact.
 */
export function withinReach(score: number, rest: number, lead: number): number {
  const bent = score + BEND * lead;
  const open = bent * bent - (1 - BEND * BEND) * rest;
  if (!(open >= 0)) return -1;
  let d = (BEND * bent + Math.sqrt(open)) / (1 - BEND * BEND);
  for (let steps = 0; steps < MOST_STEPS; steps++) {
    const beyond = (score + BOW * (d + lead) ** 2) ** 2 - rest;
    if (!(beyond >= 0)) return -1;
    const next = Math.sqrt(beyond);
    if (!(next < 0.999 * d)) break;
    d = next;
  }
  return d * d;
}
