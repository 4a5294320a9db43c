/**
 * Uniform spectra and their resampling.
 * @module spectra
 */
export {
  checkedCovers as covers,
  checkedGridEnd as gridEnd,
  checkedSameGrid as sameGrid,
  checkedWavelengths as wavelengths,
  DEFAULT_GRID,
  type Grid,
} from "../spectra/grid.js";
export {
  checkedResampleLagrange as resampleLagrange,
  checkedResampleSprague as resampleSprague,
} from "../spectra/resample.js";
export { type SpectralPoint, type Spectrum, uniformSpectrum } from "../spectra/spectrum.js";
