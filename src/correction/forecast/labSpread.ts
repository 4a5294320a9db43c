import { labByXyz } from "../../colorimetry/lab.js";
import { xyzFromReflectance } from "../../colorimetry/xyz.js";
import { ANCHOR_DEFAULTS } from "../../prediction/anchor.js";
import type { Evaluation } from "../../prediction/evaluate.js";
import type { ForwardModel } from "../../prediction/forwardModel.js";
import { changedCoefficients } from "../../prediction/labSd.js";
import type { DoubtCause, Doubts } from "./doubts.js";
import { nextCard, type SprayedCard, type World } from "./nextCard.js";
import { allBands, bandByBand, type ReflectanceModes, smoothly } from "./reflectanceModes.js";
import type { StrengthBelief } from "./strengthBelief.js";

/** How the colours of the next card spread: covariance of all L*, a*, b* (row-major), by what is behind it. */
export type LabSpread = Readonly<Record<DoubtCause, Float64Array>>;

/** Step of reflectance with which the card's share in the next card is found. */
const STEP = 1e-4;

/** Other splits of the tie, as good as the one that is used: so many times the doubt in the card, and as many less. */
const OTHER_TIE = 3;

/**
 * Spread of the next card around the world of mean strengths, to first order: each independent cause moved by ± one
 * standard deviation, half the difference of the Lab that the exact model gives, squares added up. What the card tells
 * is in `belief`, and in the tie to the card that every world is given anew.
 */
export function labSpread(
  sprayed: SprayedCard,
  { mean, modes }: StrengthBelief,
  { additions, step }: { readonly additions: Float64Array; readonly step: number },
  doubts: Doubts,
): LabSpread {
  const { bare, card } = sprayed;
  const world = { lnStrength: mean };
  const next = nextCard(sprayed, world, additions);
  const half = (of: (sign: 1 | -1) => Evaluation): Float64Array => {
    const low = of(-1).lab;
    return of(1).lab.map((value, i) => (value - low[i]) / 2);
  };
  const moved = (values: Float64Array, mode: Float64Array, sign: number) =>
    values.map((value, j) => value + sign * mode[j]);
  const covariance = (causes: readonly Float64Array[]) => sumOfSquares(causes, next.lab.length);
  const ofNext = (errors: ReflectanceModes) => errors.map((error) => labChange(bare, next, error));
  const shares = shareOfCard(sprayed, world, additions, next);
  const ofBoth = (errors: (reflectance: Float64Array) => ReflectanceModes) =>
    covariance([
      ...ofNext(errors(card).map((error) => error.map((value, b) => value * shares[b]))),
      ...ofNext(errors(next.reflectance)),
    ]);
  const pourSd = doubts.pouring * step;
  const ties = [OTHER_TIE, 1 / OTHER_TIE].map((factor) => ({
    ...ANCHOR_DEFAULTS,
    reflectanceSd: ANCHOR_DEFAULTS.reflectanceSd * factor,
  }));
  const characterised = doubts.characterisation === 0 ? [] : (bare.set.uncertainty ?? []);

  return {
    strength: covariance(
      modes.map((mode) =>
        half((sign) => nextCard(sprayed, { lnStrength: moved(mean, mode, sign) }, additions)),
      ),
    ),
    pouring: covariance(
      Array.from(additions.keys())
        .filter((j) => additions[j] > 0)
        .map((j) => {
          const one = additions.map((grams, i) => (i === j ? Math.min(pourSd, grams) : 0));
          return half((sign) => nextCard(sprayed, world, moved(additions, one, sign)));
        }),
    ),
    reading: ofBoth(() => bandByBand(bare, doubts.reading)),
    targetReading: covariance(ofNext(bandByBand(bare, doubts.targetReading))),
    spraying: ofBoth((reflectance) => allBands(bare, (b) => doubts.spraying * reflectance[b])),
    gloss: ofBoth(() => allBands(bare, () => doubts.gloss)),
    characterisation: covariance(
      characterised.map((mode) =>
        half((sign) => {
          const changed = changedCoefficients(bare, mode, sign * doubts.characterisation);
          return nextCard({ ...sprayed, bare: changed }, world, additions);
        }),
      ),
    ),
    model: covariance(ofNext(smoothly(bare, (b) => doubts.model * (next.reflectance[b] - card[b])))),
    tie: covariance([
      half((sign) => nextCard(sprayed, { ...world, tie: ties[sign > 0 ? 0 : 1] }, additions)).map(
        (change) => change * doubts.tie,
      ),
    ]),
  };
}

/** All causes together, or those named. */
export function totalSpread(
  spread: LabSpread,
  causes: readonly DoubtCause[] = Object.keys(spread) as DoubtCause[],
): Float64Array {
  return spread.strength.map((_, i) => causes.reduce((sum, cause) => sum + spread[cause][i], 0));
}

/** ∂R_next/∂R_card band by band: near 1 where little is added. */
function shareOfCard(
  sprayed: SprayedCard,
  world: World,
  additions: Float64Array,
  next: Evaluation,
): Float64Array {
  const lighter = nextCard({ ...sprayed, card: sprayed.card.map((value) => value + STEP) }, world, additions);
  return lighter.reflectance.map((value, b) => (value - next.reflectance[b]) / STEP);
}

/** Change of all Lab that a small change of reflectance makes at an evaluation. */
function labChange(
  { lights, geometries, set }: ForwardModel,
  { xyz }: Evaluation,
  change: Float64Array,
): Float64Array {
  const { count } = set.grid;
  const changed = new Float64Array(xyz.length);
  let place = 0;
  geometries.forEach((_, g) => {
    const ofGeometry = change.subarray(g * count, (g + 1) * count);
    for (const { tristimulus } of lights) {
      const rows = labByXyz([xyz[place], xyz[place + 1], xyz[place + 2]], tristimulus.white);
      const [x, y, z] = xyzFromReflectance(ofGeometry, tristimulus);
      for (const [byX, byY, byZ] of rows) changed[place++] = byX * x + byY * y + byZ * z;
    }
  });
  return changed;
}

function sumOfSquares(causes: readonly Float64Array[], width: number): Float64Array {
  const sum = new Float64Array(width * width);
  for (const cause of causes) {
    for (let i = 0; i < width; i++) {
      for (let k = 0; k < width; k++) sum[i * width + k] += cause[i] * cause[k];
    }
  }
  return sum;
}
