/**
 * Relative spectral power of CIE illuminant C, 360–780 nm every 5 nm. Standard: CIE 15.
 * 380–780 nm transcribed by script from Debian's colord-data (CIE-C.sp), times 100 as in the standard; the four
 * values below 380 nm are written from memory of the same table and held by the identity.
 * Identity: sum 7300.54; ASTM E308 white points (98.074, 118.232) and (97.285, 116.145), which the table cut at
 * 380 nm misses by 0.007 in Z for the 1931 observer.
 */
// biome-ignore format: a table
export const ILLUMINANT_C: readonly number[] = [
  12.9, 17.2, 21.4, 27.5, 33, 39.92, 47.4, 55.17, 63.3, 71.81, 80.6, 89.53, 98.1, 105.8, 112.4, 117.75,
  121.5, 123.45, 124, 123.6, 123.1, 123.3, 123.8, 124.09, 123.9, 122.92, 120.7, 116.9, 112.1, 106.98,
  102.3, 98.81, 96.9, 96.78, 98, 99.94, 102.1, 103.95, 105.2, 105.67, 105.3, 104.11, 102.3, 100.15, 97.8,
  95.43, 93.2, 91.22, 89.7, 88.83, 88.4, 88.19, 88.1, 88.06, 88, 87.86, 87.8, 87.99, 88.2, 88.2, 87.9,
  87.22, 86.3, 85.3, 84, 82.21, 80.2, 78.24, 76.3, 74.36, 72.4, 70.4, 68.3, 66.3, 64.4, 62.8, 61.5, 60.2,
  59.2, 58.5, 58.1, 58, 58.2, 58.5, 59.1,
];
