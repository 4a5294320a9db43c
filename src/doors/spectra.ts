/**
 * Uniform spectra and their resampling.
 * @module spectra
 */
export { covers, DEFAULT_GRID, type Grid, gridEnd, sameGrid, wavelengths } from "../spectra/grid.js";
export { resampleLagrange, resampleSprague } from "../spectra/resample.js";
export { type SpectralPoint, type Spectrum, uniformSpectrum } from "../spectra/spectrum.js";
