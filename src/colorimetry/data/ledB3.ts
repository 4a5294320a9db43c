/**
 * Relative spectral power of CIE illuminant LED-B3 (white LED, about 4100 K), 380–780 nm every 5 nm, 560 nm = 100.
 * Standard: CIE 15:2018. Not transcribed but recovered: least squares on 258 computed 10 nm tristimulus weights
 * of both observers, 6 decimals, with the 1 nm observers fitted to the weights of known lamps. Reproduces the
 * weights to 9e−5. Standard error below 0.007 from 400 to 740 nm, up to 0.14 at 780 nm, where nothing is seen.
 * The digits of the standard could not be settled: this is not its table but one that weighs alike.
 * Identity: chromaticity (0.3756, 0.3723), published, for the 1931 observer by summation at 5 nm; sum 4186.013.
 */
// biome-ignore format: a table
export const LED_B3: readonly number[] = [
  0, 0.021, 0.054, 0.137, 0.331, 0.721, 1.677, 3.692, 7.978, 15.699, 28.144, 47.519, 80.362, 117.337,
  125.167, 96.708, 65.639, 49.95, 39.918, 33.896, 34.28, 38.609, 44.888, 52.272, 59.279, 65.137, 69.761,
  73.358, 76.328, 79.128, 82.029, 85.1, 88.26, 91.47, 94.559, 97.372, 100, 102.276, 104.249, 105.919,
  107.303, 108.568, 109.429, 109.76, 109.43, 108.235, 106.113, 103.062, 99.216, 94.638, 89.403, 83.694,
  77.663, 71.493, 65.327, 59.222, 53.318, 47.763, 42.571, 37.729, 33.3, 29.318, 25.729, 22.478, 19.564,
  16.992, 14.72, 12.713, 10.969, 9.47, 8.167, 7.02, 6.028, 5.192, 4.486, 3.871, 3.325, 2.848, 2.458, 2.176,
  2.028,
];
