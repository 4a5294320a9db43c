import type { IlluminantName } from "../../colorimetry/illuminant.js";
import type { ObserverId } from "../../colorimetry/observer.js";

/** Relative power of an illuminant at a wavelength in nm: ISO/CIE 11664-2 and CIE 15, as in Debian's colord-data. */
// biome-ignore format: a table
export const CIE15_POWERS: readonly (readonly [
  illuminant: IlluminantName, nm: number, power: number, allowed: number,
])[] = [
  ["A", 360, 6.14462, 3e-5], ["A", 400, 14.708, 7e-5], ["A", 555, 96.4423, 4.8e-4],
  ["A", 560, 100, 5e-4], ["A", 700, 198.261, 9.9e-4], ["A", 830, 261.602, 1e-3],
  ["D65", 360, 46.6383, 1e-3], ["D65", 365, 49.3637, 1e-3], ["D65", 545, 104.225, 1e-3],
  ["D65", 560, 100, 1e-3], ["D65", 700, 71.6091, 1e-3], ["D65", 830, 60.3125, 1e-3],
  ["D50", 380, 24.5, 0.05], ["D50", 450, 87.2, 0.05], ["D50", 700, 91.6, 0.05], ["D50", 780, 78.3, 0.05],
  ["D55", 380, 32.58, 0.005], ["D55", 450, 97.99, 0.005], ["D55", 700, 82.84, 0.005], ["D55", 780, 71.82, 0.005],
];

/**
 * Chromaticities, as carried by colour-science. Those of the F sources for 10° agree with sums at 1 nm to their last
 * digit; we hold to the white points of ASTM E308, which agree with sums at 5 nm.
 */
// biome-ignore format: a table
export const CIE15_CHROMATICITIES: readonly (readonly [
  illuminant: IlluminantName, observer: ObserverId, x: number, y: number, allowed: number,
])[] = [
  ["A", "1931-2", 0.44758, 0.40745, 5e-5],
  ["C", "1931-2", 0.31006, 0.31616, 5e-5],
  ["D50", "1931-2", 0.3457, 0.3585, 5e-5],
  ["D55", "1931-2", 0.33243, 0.34744, 5e-5],
  ["D65", "1931-2", 0.3127, 0.329, 5e-5],
  ["D75", "1931-2", 0.29903, 0.31488, 5e-5],
  ["F2", "1931-2", 0.3721, 0.3751, 5e-5],
  ["F7", "1931-2", 0.3129, 0.3292, 5e-5],
  ["F11", "1931-2", 0.3805, 0.3769, 5e-5],
  ["LED-B3", "1931-2", 0.3756, 0.3723, 5e-5],
  ["A", "1964-10", 0.45117, 0.40594, 1.5e-5],
  ["C", "1964-10", 0.31039, 0.31905, 1.5e-5],
  ["D50", "1964-10", 0.34773, 0.35952, 1.5e-5],
  ["D55", "1964-10", 0.33412, 0.34877, 1.5e-5],
  ["D65", "1964-10", 0.31382, 0.331, 1.5e-5],
  ["D75", "1964-10", 0.29968, 0.3174, 1.5e-5],
  ["F2", "1964-10", 0.37925, 0.36733, 1.5e-4],
  ["F7", "1964-10", 0.31569, 0.3296, 1.5e-4],
  ["F11", "1964-10", 0.38541, 0.37123, 1.5e-4],
];

/** Chromaticity of daylight by correlated colour temperature in K: tests of colour-science, temperature/cie_d. */
export const CIE15_DAYLIGHT_LOCUS: readonly (readonly [kelvin: number, x: number, y: number])[] = [
  [4000, 0.382343625, 0.383766261015578],
  [7000, 0.30535743148688, 0.321646345474552],
  [25000, 0.24985367, 0.254799464210944],
];
