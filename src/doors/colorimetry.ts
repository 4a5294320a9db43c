/**
 * Observers, illuminants, tristimulus weights, Lab and colour differences.
 * @module colorimetry
 */
export { cie76 } from "../colorimetry/cie76.js";
export { CIE94_GRAPHIC_ARTS, CIE94_TEXTILES, type Cie94Options, cie94 } from "../colorimetry/cie94.js";
export { CIEDE2000_REFERENCE, type Ciede2000Options, ciede2000 } from "../colorimetry/ciede2000.js";
export { CMC_ACCEPTABILITY, CMC_PERCEPTIBILITY, type CmcOptions, cmc } from "../colorimetry/cmc.js";
export { daylight, daylightChromaticity } from "../colorimetry/daylight.js";
export { deltaE00Metric } from "../colorimetry/deltaE00Metric.js";
export { DIFFERENCES, type DifferenceName } from "../colorimetry/differences.js";
export { din99 } from "../colorimetry/din99.js";
export {
  ILLUMINANT_NAMES,
  type IlluminantName,
  illuminantSpectrum,
  type NamedIlluminant,
} from "../colorimetry/illuminant.js";
export {
  type Lab,
  type Lch,
  labByXyz,
  labFromLch,
  labFromXyz,
  lchFromLab,
  type Matrix3,
  xyzFromLab,
} from "../colorimetry/lab.js";
export {
  type ColourDifference,
  type MetamericCorrection,
  metamerismInLab,
  metamerismInXyz,
  type UnderTwoLights,
} from "../colorimetry/metamerism.js";
export { OBSERVER_IDS, type Observer, type ObserverId, standardObserver } from "../colorimetry/observer.js";
export { type TristimulusWeights, tristimulusWeights, type WeightOptions } from "../colorimetry/weights.js";
export { type BandWeights, type Xyz, xyzFromReflectance } from "../colorimetry/xyz.js";
