import type { Lab } from "../../colorimetry/lab.js";
import type { MetamericCorrection, UnderTwoLights } from "../../colorimetry/metamerism.js";
import type { Xyz } from "../../colorimetry/xyz.js";

/*
 * colour-science, colour/difference/metamerism_index.py, docstrings and tests (2025), which cite ISO 18314-4:2024;
 * whether the standard itself prints these numbers is not known. Reference D65, test A, 10°.
 */
export const METAMERIC_PAIR_IN_LAB: Readonly<Record<"standard" | "sample", UnderTwoLights<Lab>>> = {
  standard: { reference: [39.0908, -21.3269, 22.6657], test: [38.17781, -17.4939, 21.0618] },
  sample: { reference: [38.83253, -19.8787, 20.0453], test: [37.9013, -19.56327, 16.9346] },
};
export const METAMERIC_PAIR_IN_XYZ: Readonly<Record<"standard" | "sample", UnderTwoLights<Xyz>>> = {
  standard: { reference: [7.6576, 10.7116, 5.0731], test: [8.96442, 10.1878, 1.6663] },
  sample: { reference: [7.6933, 10.5616, 5.54474], test: [8.56438, 10.0324, 1.9315] },
};

/** What the pair in XYZ is judged against there: xy = (0.45117, 0.40594) of CIE 15, not the white of ASTM E308. */
export const METAMERIC_PAIR_WHITE: Xyz = [
  (100 * 0.45117) / 0.40594,
  100,
  (100 * (1 - 0.45117 - 0.40594)) / 0.40594,
];

/** The indices of the pair, and how far off ours may be. */
export const METAMERIC_PAIR_INDICES: readonly (readonly [
  space: "Lab" | "XYZ",
  correction: MetamericCorrection,
  expected: number,
  allowed: number,
])[] = [
  ["Lab", "additive", 3.8267581, 5e-8],
  ["Lab", "multiplicative", 3.9842216, 5e-7],
  ["XYZ", "multiplicative", 3.7906989, 5e-7],
  ["XYZ", "additive", 4.6910648, 5e-7],
];
