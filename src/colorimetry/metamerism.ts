import { checkNumber, checkOneOf, checkRecord } from "../core/check.js";
import { InputError } from "../core/InputError.js";
import { checkTriple, checkWhite } from "./checkTriple.js";
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

const WORDS: readonly MetamericCorrection[] = ["additive", "multiplicative"];

/**
 * Metamerism index M = ΔE(standard, corrected sample) under the test light, the sample corrected in CIELAB:
 * c_t − (c_r − s_r), or c_t·s_r/c_r, coordinate by coordinate. Additive is what the standard recommends here: ratios
 * of a* and b* mean little near neutral. CIE 1976 difference unless given.
 * Throws `out-of-range` where a ratio would divide by 0, `not-finite` and the like. Source: ISO 18314-4; DIN 6172.
 */
export function checkedMetamerismInLab(
  standard: UnderTwoLights<Lab>,
  sample: UnderTwoLights<Lab>,
  correction: MetamericCorrection = "additive",
  difference: ColourDifference = cie76,
): number {
  checkUnderTwoLights(standard, sample);
  const how = checkOneOf(correction, "correction", WORDS);
  return checkNumber(metamerismInLab(standard, sample, how, difference), "sample.reference");
}

/** The same of colours that were looked at before. */
export function metamerismInLab(
  standard: UnderTwoLights<Lab>,
  sample: UnderTwoLights<Lab>,
  correction: MetamericCorrection = "additive",
  difference: ColourDifference = cie76,
): number {
  return difference(standard.test, CORRECTIONS[correction](standard, sample));
}

/**
 * The metamerism index with the sample corrected in X, Y, Z, which is where ratios belong; `white` is that of the test light.
 * Throws as `metamerismInLab` does. Source: ISO 18314-4; DIN 6172.
 */
export function checkedMetamerismInXyz(
  standard: UnderTwoLights<Xyz>,
  sample: UnderTwoLights<Xyz>,
  white: Xyz,
  correction: MetamericCorrection = "multiplicative",
  difference: ColourDifference = cie76,
): number {
  checkUnderTwoLights(standard, sample);
  checkWhite(white, "white");
  const how = checkOneOf(correction, "correction", WORDS);
  return checkNumber(metamerismInXyz(standard, sample, white, how, difference), "sample.reference");
}

/** The same of colours that were looked at before. */
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

function checkUnderTwoLights(standard: unknown, sample: unknown): void {
  for (const [name, colours] of Object.entries({ standard, sample })) {
    const { reference, test } = checkRecord(colours, name);
    checkTriple(reference, `${name}.reference`);
    checkTriple(test, `${name}.test`);
  }
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
