/**
 * Observers, illuminants, tristimulus weights, Lab and colour differences.
 * @module colorimetry
 */
export { checkedCie76 as cie76 } from "../colorimetry/cie76.js";
export {
  CIE94_GRAPHIC_ARTS,
  CIE94_TEXTILES,
  type Cie94Options,
  checkedCie94 as cie94,
} from "../colorimetry/cie94.js";
export {
  CIEDE2000_REFERENCE,
  type Ciede2000Options,
  checkedCiede2000 as ciede2000,
} from "../colorimetry/ciede2000.js";
export {
  CMC_ACCEPTABILITY,
  CMC_PERCEPTIBILITY,
  type CmcOptions,
  checkedCmc as cmc,
} from "../colorimetry/cmc.js";
export { daylight, daylightChromaticity } from "../colorimetry/daylight.js";
export { checkedDeltaE00Metric as deltaE00Metric } from "../colorimetry/deltaE00Metric.js";
export { DIFFERENCES, type DifferenceName } from "../colorimetry/differences.js";
export { checkedDin99 as din99 } from "../colorimetry/din99.js";
export { type FlopLightness, flopIndex } from "../colorimetry/flopIndex.js";
export {
  ILLUMINANT_NAMES,
  type IlluminantName,
  illuminantSpectrum,
  type NamedIlluminant,
} from "../colorimetry/illuminant.js";
export {
  checkedLabByXyz as labByXyz,
  checkedLabFromXyz as labFromXyz,
  checkedLchFromLab as lchFromLab,
  checkedXyzFromLab as xyzFromLab,
  type Lab,
  type Lch,
  labFromLch,
  type Matrix3,
} from "../colorimetry/lab.js";
export {
  type ColourDifference,
  checkedMetamerismInLab as metamerismInLab,
  checkedMetamerismInXyz as metamerismInXyz,
  type MetamericCorrection,
  type UnderTwoLights,
} from "../colorimetry/metamerism.js";
export { OBSERVER_IDS, type Observer, type ObserverId, standardObserver } from "../colorimetry/observer.js";
export { type TristimulusWeights, tristimulusWeights, type WeightOptions } from "../colorimetry/weights.js";
export {
  type BandWeights,
  checkedXyzFromReflectance as xyzFromReflectance,
  type Xyz,
} from "../colorimetry/xyz.js";
