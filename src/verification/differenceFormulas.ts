import { cie76 } from "../colorimetry/cie76.js";
import { CIE94_TEXTILES, cie94 } from "../colorimetry/cie94.js";
import { ciede2000 } from "../colorimetry/ciede2000.js";
import { CMC_ACCEPTABILITY, CMC_PERCEPTIBILITY, cmc } from "../colorimetry/cmc.js";
import { din99 } from "../colorimetry/din99.js";
import type { Lab } from "../colorimetry/lab.js";
import type { DifferenceFormula } from "./data/differencePairs.js";

/** Our functions for the formulas of the published pairs. */
export const DIFFERENCE_FORMULAS = {
  CIE76: cie76,
  CIE94: (reference, sample) => cie94(reference, sample),
  "CIE94 textiles": (reference, sample) => cie94(reference, sample, CIE94_TEXTILES),
  CIEDE2000: (reference, sample) => ciede2000(reference, sample),
  "CIEDE2000, kL = 2": (reference, sample) => ciede2000(reference, sample, { kL: 2, kC: 1, kH: 1 }),
  "CMC(1:1)": (reference, sample) => cmc(reference, sample, CMC_PERCEPTIBILITY),
  "CMC(2:1)": (reference, sample) => cmc(reference, sample, CMC_ACCEPTABILITY),
  DIN99: din99,
} as const satisfies Record<DifferenceFormula, (reference: Lab, sample: Lab) => number>;
