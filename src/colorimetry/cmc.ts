import { checkFactors, checkPair, DIVISOR } from "./checkTriple.js";
import { hueDifference } from "./hueDifference.js";
import { type Lab, lchFromLab } from "./lab.js";

/** Factors of lightness and chroma. */
export interface CmcOptions {
  readonly l: number;
  readonly c: number;
}

/** 2:1 judges acceptability, 1:1 perceptibility. */
export const CMC_ACCEPTABILITY: CmcOptions = { l: 2, c: 1 };
/** 1:1, for what can be seen. */
export const CMC_PERCEPTIBILITY: CmcOptions = { l: 1, c: 1 };

const RADIANS = Math.PI / 180;

/**
 * CMC(l:c) colour difference √((ΔL/(l·SL))² + (ΔC/(c·SC))² + (ΔH/SH)²), S from the reference alone, so not
 * symmetric. 2:1 unless given. Throws `wrong-length`, `not-finite` and the like.
 * Source: Clarke, McDonald & Rigg 1984; BS 6923; ISO 105-J03.
 */
export function checkedCmc(reference: Lab, sample: Lab, options?: CmcOptions): number {
  checkPair(reference, sample);
  checkFactors(options, { l: DIVISOR, c: DIVISOR });
  return cmc(reference, sample, options);
}

/** The same of colours that were looked at before. */
export function cmc(reference: Lab, sample: Lab, { l, c }: CmcOptions = CMC_ACCEPTABILITY): number {
  const [lightness, chroma, hue] = lchFromLab(reference);
  const sL = lightness < 16 ? 0.511 : (0.040975 * lightness) / (1 + 0.01765 * lightness);
  const sC = (0.0638 * chroma) / (1 + 0.0131 * chroma) + 0.638;
  const t =
    hue >= 164 && hue <= 345
      ? 0.56 + Math.abs(0.2 * Math.cos((hue + 168) * RADIANS))
      : 0.36 + Math.abs(0.4 * Math.cos((hue + 35) * RADIANS));
  const fourth = chroma ** 4;
  const f = Math.sqrt(fourth / (fourth + 1900));
  const sH = sC * (f * t + 1 - f);
  const dL = sample[0] - lightness;
  const dC = Math.hypot(sample[1], sample[2]) - chroma;
  return Math.hypot(dL / (l * sL), dC / (c * sC), hueDifference(reference, sample) / sH);
}
