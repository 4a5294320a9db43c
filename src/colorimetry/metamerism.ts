import { InputError } from "../core/InputError.js";
import { cie76 } from "./cie76.js";
import { type Lab, labFromXyz } from "./lab.js";
import type { Xyz } from "./xyz.js";

/** One colour under the light in which a pair is matched, and under the one in which the match is tried. */
export interface UnderTwoLights<Colour> {
  readonly reference: Colour;
  readonly test: Colour;
}

/**
 * How a pair that does not quite match under the reference light is brought to a match before it is judged under
 * the test light: by the differences of the coordinates, or by their ratios.
 */
export type MetamericCorrection = "additive" | "multiplicative";

/** A colour difference; the standard comes first. */
export type ColourDifference = (reference: Lab, sample: Lab) => number;

/**
 * Metamerism index M = ΔE(standard, corrected sample) under the test light, the sample corrected in CIELAB:
 * c_t − (c_r − s_r), or c_t·s_r/c_r, coordinate by coordinate. Additive is what the standard recommends here: ratios
 * of a* and b* mean little near neutral. CIE 1976 difference unless given.
 * Throws `out-of-range` where a ratio would divide by 0. Source: ISO 18314-4; DIN 6172.
 */
export function metamerismInLab(
  standard: UnderTwoLights<Lab>,
  sample: UnderTwoLights<Lab>,
  correction: MetamericCorrection = "additive",
  difference: ColourDifference = cie76,
): number {
  return difference(standard.test, CORRECTIONS[correction](standard, sample));
}

/**
 * The same with the sample corrected in X, Y, Z, which is where ratios belong; `white` is that of the test light.
 * Throws `out-of-range` where a ratio would divide by 0. Source: ISO 18314-4; DIN 6172.
 */
export function metamerismInXyz(
  standard: UnderTwoLights<Xyz>,
  sample: UnderTwoLights<Xyz>,
  white: Xyz,
  correction: MetamericCorrection = "multiplicative",
  difference: ColourDifference = cie76,
): number {
  const corrected = CORRECTIONS[correction](standard, sample);
  return difference(labFromXyz(standard.test, white), labFromXyz(corrected, white));
}

type Triple = readonly [number, number, number];
type Pair = UnderTwoLights<Triple>;

const CORRECTIONS = {
  additive: (standard: Pair, { reference, test }: Pair) =>
    byAxis((axis) => test[axis] - (reference[axis] - standard.reference[axis])),
  multiplicative: (standard: Pair, { reference, test }: Pair) =>
    byAxis((axis) => {
      if (reference[axis] === standard.reference[axis]) return test[axis];
      if (reference[axis] === 0) {
        throw new InputError(
          "out-of-range",
          `sample.reference[${axis}]`,
          "0 cannot be brought to a match by a factor",
        );
      }
      return (test[axis] * standard.reference[axis]) / reference[axis];
    }),
} as const satisfies Record<MetamericCorrection, (standard: Pair, sample: Pair) => Triple>;

function byAxis(of: (axis: 0 | 1 | 2) => number): Triple {
  return [of(0), of(1), of(2)];
}
