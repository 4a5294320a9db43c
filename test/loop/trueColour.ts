import { ciede2000 } from "../../src/colorimetry/ciede2000.js";
import { type Lab, labFromXyz } from "../../src/colorimetry/lab.js";
import { tristimulusWeights } from "../../src/colorimetry/weights.js";
import { xyzFromReflectance } from "../../src/colorimetry/xyz.js";
import { GRID } from "../simulator/pigments.js";

/** By what a match is judged: D65, 10° observer. */
export const VIEWING = { observer: "1964-10", illuminants: [{ name: "D65" }] } as const;

const weights = tristimulusWeights({ grid: GRID, illuminant: "D65", observer: "1964-10" });

export const labOf = (reflectance: ArrayLike<number>): Lab =>
  labFromXyz(xyzFromReflectance(reflectance, weights), weights.white);

/** ΔE00 between two reflectances. */
export const deltaE00 = (reference: ArrayLike<number>, sample: ArrayLike<number>): number =>
  ciede2000(labOf(reference), labOf(sample));
