import { cie76 } from "./cie76.js";
import { CIE94_TEXTILES, cie94 } from "./cie94.js";
import { ciede2000 } from "./ciede2000.js";
import { CMC_ACCEPTABILITY, CMC_PERCEPTIBILITY, cmc } from "./cmc.js";
import { din99 } from "./din99.js";
import type { Lab } from "./lab.js";

/** The name of a colour difference: a key of `DIFFERENCES`. */
export type DifferenceName =
  | "CIE76"
  | "CIE94"
  | "CIE94 textiles"
  | "CIEDE2000"
  | "CIEDE2000, kL = 2"
  | "CMC(1:1)"
  | "CMC(2:1)"
  | "DIN99";

/** The colour differences by name, each of a reference and a sample; a new one is one entry here. */
export const DIFFERENCES: Readonly<Record<DifferenceName, (reference: Lab, sample: Lab) => number>> = {
  CIE76: cie76,
  CIE94: (reference, sample) => cie94(reference, sample),
  "CIE94 textiles": (reference, sample) => cie94(reference, sample, CIE94_TEXTILES),
  CIEDE2000: (reference, sample) => ciede2000(reference, sample),
  "CIEDE2000, kL = 2": (reference, sample) => ciede2000(reference, sample, { kL: 2, kC: 1, kH: 1 }),
  "CMC(1:1)": (reference, sample) => cmc(reference, sample, CMC_PERCEPTIBILITY),
  "CMC(2:1)": (reference, sample) => cmc(reference, sample, CMC_ACCEPTABILITY),
  DIN99: din99,
};
