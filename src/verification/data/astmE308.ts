import type { IlluminantName } from "../../colorimetry/illuminant.js";
import type { ObserverId } from "../../colorimetry/observer.js";
import type { Xyz } from "../../colorimetry/xyz.js";
import type { Grid } from "../../spectra/grid.js";

/** One published table of tristimulus weights, in thousandths. */
export interface PublishedWeights {
  readonly illuminant: IlluminantName;
  readonly observer: ObserverId;
  readonly grid: Grid;
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly z: readonly number[];
}

/** Tables of ASTM E308-15 (three decimals) as carried by colour-science, test_tristimulus_values.py. */
// biome-ignore format: tables
export const ASTM_E308_WEIGHTS: readonly PublishedWeights[] = [
  {
    illuminant: "A", observer: "1964-10", grid: { start: 360, step: 10, count: 48 },
    x: [
      0, 0, 0, 2, 25, 134, 377, 686, 964, 1080, 1006, 731, 343, 78, 22, 218, 750, 1642, 2842, 4336,
      6200, 8262, 10227, 11945, 12746, 12337, 10817, 8560, 6014, 3887, 2309, 1276, 666, 336, 166, 82,
      40, 20, 10, 5, 3, 1, 1, 0, 0, 0, 0, 0,
    ],
    y: [
      0, 0, 0, 0, 3, 14, 39, 84, 156, 259, 424, 696, 1082, 1616, 2422, 3529, 4840, 6100, 7250, 8114,
      8758, 8988, 8760, 8304, 7468, 6323, 5033, 3744, 2506, 1560, 911, 499, 259, 130, 65, 32, 16, 8, 4,
      2, 1, 1, 0, 0, 0, 0, 0, 0,
    ],
    z: [
      0, 0, 0, 8, 110, 615, 1792, 3386, 4944, 5806, 5812, 4919, 3300, 1973, 1152, 658, 382, 211, 102,
      32, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0,
    ],
  },
  {
    illuminant: "A", observer: "1964-10", grid: { start: 360, step: 20, count: 24 },
    x: [
      0, -9, 60, 773, 1900, 1971, 718, 43, 1522, 5677, 12445, 20554, 25332, 21571, 12179, 4668, 1324,
      318, 75, 18, 5, 1, 0, 0,
    ],
    y: [
      0, -1, 5, 78, 304, 855, 2146, 4899, 9647, 14461, 17474, 17584, 14896, 10080, 5068, 1830, 513,
      123, 29, 7, 2, 1, 0, 0,
    ],
    z: [
      -1, -41, 257, 3697, 9755, 11487, 6785, 2321, 743, 196, 5, -3, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0,
    ],
  },
  {
    illuminant: "D65", observer: "1931-2", grid: { start: 360, step: 20, count: 24 },
    x: [
      -1, -8, 179, 2542, 6670, 6333, 2213, 52, 1348, 5767, 11301, 16256, 17933, 14020, 7057, 2527, 670,
      140, 35, 8, 2, 0, 0, 0,
    ],
    y: [
      0, 0, 2, 71, 453, 1316, 2933, 6866, 14106, 18981, 18863, 15455, 10699, 6277, 2743, 927, 242, 50,
      13, 3, 1, 0, 0, 0,
    ],
    z: [
      -5, -39, 829, 12203, 33637, 36334, 18278, 5543, 1611, 382, 68, 25, 13, 3, 0, 0, 0, 0, 0, 0, 0, 0,
      0, 0,
    ],
  },
  {
    illuminant: "D65", observer: "1931-2", grid: { start: 400, step: 20, count: 16 },
    x: [
      170, 2542, 6670, 6333, 2213, 52, 1348, 5767, 11301, 16256, 17933, 14020, 7057, 2527, 670, 185,
    ],
    y: [
      2, 71, 453, 1316, 2933, 6866, 14106, 18981, 18863, 15455, 10699, 6277, 2743, 927, 242, 67,
    ],
    z: [
      785, 12203, 33637, 36334, 18278, 5543, 1611, 382, 68, 25, 13, 3, 0, 0, 0, 0,
    ],
  },
];

/** The sample of the worked sums, in ten-thousandths, 400–700 nm every 5 nm; 0 elsewhere. Same source. */
// biome-ignore format: a table
export const ASTM_E308_SAMPLE: readonly number[] = [
  641, 650, 654, 652, 645, 629, 605, 581, 562, 551, 543, 539, 537, 538, 541, 547, 559, 578, 603, 629,
  651, 667, 680, 691, 705, 720, 736, 753, 772, 791, 809, 833, 870, 924, 990, 1061, 1128, 1190, 1251,
  1308, 1360, 1403, 1439, 1473, 1511, 1550, 1590, 1634, 1688, 1753, 1828, 1909, 1996, 2088, 2187, 2291,
  2397, 2505, 2618, 2733, 2852,
];

/**
 * Tristimulus values of the sample under an illuminant for an observer from readings on a grid, and how far off ours
 * may be: what the ways of summing differ by (docs/decisions.md). Same source.
 */
// biome-ignore format: a table
export const ASTM_E308_SUMS: readonly (readonly [
  illuminant: IlluminantName, observer: ObserverId, grid: Grid, xyz: Xyz, allowed: number,
])[] = [
  ["A", "1931-2", { start: 360, step: 5, count: 95 }, [14.46341147, 10.85819624, 2.04695585], 0.0005],
  ["A", "1931-2", { start: 360, step: 10, count: 48 }, [14.4777998, 10.86358645, 2.04751388], 0.0002],
  ["A", "1931-2", { start: 400, step: 10, count: 31 }, [14.54137532, 10.88641727, 2.04931318], 0.0005],
  ["A", "1931-2", { start: 360, step: 20, count: 24 }, [14.50187464, 10.87217124, 2.04918305], 0.001],
  ["A", "1931-2", { start: 400, step: 20, count: 16 }, [14.54114025, 10.88634755, 2.04916445], 0.002],
  ["C", "1964-10", { start: 360, step: 5, count: 95 }, [10.77002699, 9.44876636, 6.6241529], 0.004],
  ["F2", "1964-10", { start: 360, step: 5, count: 95 }, [11.57540576, 9.98608874, 3.9524259], 0.004],
];

/** X and Z of the white (Y = 100) by Table 5, 10 nm, as carried by Unicolour, Illuminant.cs; and what is allowed. */
// biome-ignore format: a table
export const ASTM_E308_WHITES: readonly (readonly [
  illuminant: IlluminantName, observer: ObserverId, x: number, z: number, allowed: number,
])[] = [
  ["A", "1931-2", 109.85, 35.585, 0.001], ["A", "1964-10", 111.144, 35.2, 0.001],
  ["C", "1931-2", 98.074, 118.232, 0.001], ["C", "1964-10", 97.285, 116.145, 0.001],
  ["D50", "1931-2", 96.422, 82.521, 0.001], ["D50", "1964-10", 96.72, 81.427, 0.001],
  ["D55", "1931-2", 95.682, 92.149, 0.0015], ["D55", "1964-10", 95.799, 90.926, 0.0015],
  ["D65", "1931-2", 95.047, 108.883, 0.001], ["D65", "1964-10", 94.811, 107.304, 0.001],
  ["D75", "1931-2", 94.972, 122.638, 0.002], ["D75", "1964-10", 94.416, 120.641, 0.002],
  ["F2", "1931-2", 99.186, 67.393, 0.003], ["F2", "1964-10", 103.279, 69.027, 0.003],
  ["F7", "1931-2", 95.041, 108.747, 0.004], ["F7", "1964-10", 95.792, 107.686, 0.004],
  ["F11", "1931-2", 100.962, 64.35, 0.002], ["F11", "1964-10", 103.863, 65.607, 0.002],
];
