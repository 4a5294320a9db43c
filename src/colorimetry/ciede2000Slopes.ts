import { betweenHues, ciede2000Weights, DEGREE, hueAngle, share25 } from "./ciede2000.js";
import type { Lab } from "./lab.js";

/** CIEDE2000 of a sample against a reference, and its slopes by L*, a*, b* of the sample. */
export interface Ciede2000Slopes {
  readonly difference: number;
  readonly slopes: Lab;
}

/** Chroma of a neutral, of which the hue has no slope. */
const NEUTRAL = 1e-9;

/**
 * ΔE00 and ∂ΔE00/∂(L*, a*, b*) of the sample, by the chain rule through every step of the formula. Where ΔE00 has a
 * kink (equal colours, a neutral sample, hues half a turn apart) the slopes are those of one side, or 0. [C]
 */
export function ciede2000Slopes([l1, a1, b1]: Lab, [l2, a2, b2]: Lab): Ciede2000Slopes {
  // C̄ab, and 1 + G with its slope by C̄ab.
  const chromaAb = Math.max(NEUTRAL, Math.sqrt(a2 * a2 + b2 * b2));
  const meanAb = (Math.sqrt(a1 * a1 + b1 * b1) + chromaAb) / 2;
  const shareAb = share25(meanAb);
  const rootAb = Math.sqrt(shareAb);
  const stretch = 1.5 - rootAb / 2;
  const stretchByMean = (-1.75 * rootAb * (1 - shareAb)) / meanAb;
  const stretchByA = (stretchByMean * a2) / (2 * chromaAb);
  const stretchByB = (stretchByMean * b2) / (2 * chromaAb);

  const [p1, p2] = [stretch * a1, stretch * a2];
  const c1 = Math.max(NEUTRAL, Math.sqrt(p1 * p1 + b1 * b1));
  const c2 = Math.max(NEUTRAL, Math.sqrt(p2 * p2 + b2 * b2));
  const [p1ByA, p1ByB] = [a1 * stretchByA, a1 * stretchByB];
  const [p2ByA, p2ByB] = [stretch + a2 * stretchByA, a2 * stretchByB];
  const [c1ByA, c1ByB] = [(p1 * p1ByA) / c1, (p1 * p1ByB) / c1];
  const [c2ByA, c2ByB] = [(p2 * p2ByA) / c2, (p2 * p2ByB + b2) / c2];
  const [h1ByA, h1ByB] = [(-b1 * p1ByA) / (c1 * c1), (-b1 * p1ByB) / (c1 * c1)];
  const [h2ByA, h2ByB] = [(-b2 * p2ByA) / (c2 * c2), (p2 - b2 * p2ByB) / (c2 * c2)];

  const { turn, mean } = betweenHues(hueAngle(p1, b1), hueAngle(p2, b2));
  const chroma = (c1 + c2) / 2;
  const { sL, sC, sH, rT } = ciede2000Weights((l1 + l2) / 2, chroma, mean);
  const fromMid = (l1 + l2) / 2 - 50;
  const mid = 20 + fromMid * fromMid;
  const sLByL = (0.015 * fromMid * (20 + mid)) / (2 * mid * Math.sqrt(mid));
  const sHByC = (sH - 1) / chroma;
  const sHByH =
    0.015 *
    chroma *
    (0.17 * Math.sin(mean - 30 * DEGREE) -
      0.48 * Math.sin(2 * mean) -
      0.96 * Math.sin(3 * mean + 6 * DEGREE) +
      0.8 * Math.sin(4 * mean - 63 * DEGREE));
  const share = share25(chroma);
  const bump = (mean / DEGREE - 275) / 25;
  const rotation = 60 * DEGREE * Math.exp(-bump * bump);
  const rTByC = (rT * 3.5 * (1 - share)) / chroma;
  const rTByH = (4 * Math.sqrt(share) * Math.cos(rotation) * rotation * bump) / (25 * DEGREE);

  const l = (l2 - l1) / sL;
  const c = (c2 - c1) / sC;
  const rootC = Math.sqrt(c1 * c2);
  const sine = Math.sin(turn / 2);
  const h = (2 * rootC * sine) / sH;
  const difference = Math.sqrt(l * l + c * c + h * h + rT * c * h);
  if (!(difference > 0)) return { difference: 0, slopes: [0, 0, 0] };

  const along = (c1By: number, c2By: number, h1By: number, h2By: number): number => {
    const chromaBy = (c1By + c2By) / 2;
    const meanBy = (h1By + h2By) / 2;
    const cBy = (c2By - c1By - c * 0.045 * chromaBy) / sC;
    const hBy =
      ((sine * (c1By * c2 + c1 * c2By)) / rootC +
        rootC * Math.cos(turn / 2) * (h2By - h1By) -
        h * (sHByC * chromaBy + sHByH * meanBy)) /
      sH;
    const rTBy = rTByC * chromaBy + rTByH * meanBy;
    return (c * cBy + h * hBy + (rTBy * c * h + rT * (cBy * h + c * hBy)) / 2) / difference;
  };
  return {
    difference,
    slopes: [
      (l * (1 - l * sLByL)) / (sL * difference),
      along(c1ByA, c2ByA, h1ByA, h2ByA),
      along(c1ByB, c2ByB, h1ByB, h2ByB),
    ],
  };
}
