import { ciede2000 } from "../colorimetry/ciede2000.js";
import { DIFFERENCES } from "../colorimetry/differences.js";
import type { Lab } from "../colorimetry/lab.js";
import type { Check, CheckGroup } from "./check.js";
import {
  COLORJS_DIFFERENCE_PAIRS,
  COLOUR_SCIENCE_DIFFERENCE_PAIRS,
  type DifferencePair,
  UNICOLOUR_DIFFERENCE_PAIRS,
} from "./data/differencePairs.js";
import { SHARMA_PAIRS } from "./data/sharma.js";

/** Colour differences of pairs, the 34 of Sharma, Wu & Dalal first. */
export function differenceChecks(): readonly CheckGroup[] {
  return [
    {
      title: "CIEDE2000: the 34 pairs",
      source: "Sharma, Wu & Dalal 2005, Table 1 (seen in open-source colour libraries)",
      known: "seen",
      remark: "The table has four decimals.",
      checks: [
        ...SHARMA_PAIRS.map(([one, two, expected], i) =>
          check(`${i + 1}: ${pairText(one, two)}`, 1e-4, () => [
            { name: "ΔE00", expected, got: ciede2000(one, two) },
          ]),
        ),
        check("the other way round", 1e-4, () =>
          SHARMA_PAIRS.map(([one, two, expected], i) => ({
            name: `pair ${i + 1}`,
            expected,
            got: ciede2000(two, one),
          })),
        ),
      ],
    },
    {
      title: "Colour differences by CIE94, CIEDE2000, CMC and DIN99",
      source: "colour-science, colour/difference/tests",
      known: "seen",
      remark: "DIN99 is there with the 105.509 of ASTM D2244 where DIN 6176 has 105.51.",
      checks: COLOUR_SCIENCE_DIFFERENCE_PAIRS.map(pairCheck),
    },
    {
      title: "Colour differences by CIE76, CMC and CIEDE2000",
      source: "Color.js, test/delta.js",
      known: "seen",
      remark: "Four decimals there.",
      checks: COLORJS_DIFFERENCE_PAIRS.map(pairCheck),
    },
    {
      title: "Colour differences of the primaries of sRGB, both ways",
      source: "Unicolour, DifferenceTests.cs",
      known: "seen",
      remark: "The Lab of the primaries is ours to six decimals, from IEC 61966-2-1.",
      checks: UNICOLOUR_DIFFERENCE_PAIRS.map(pairCheck),
    },
  ];
}

function pairCheck([formula, reference, sample, expected, allowed]: DifferencePair): Check {
  return check(`${formula} of ${pairText(reference, sample)}`, allowed, () => [
    { name: formula, expected, got: DIFFERENCES[formula](reference, sample) },
  ]);
}

function check(name: string, allowed: number, figures: Check["figures"]): Check {
  return { name, measure: "absolute", allowed, figures };
}

function pairText(one: Lab, two: Lab): string {
  return `(${one.join(", ")}) and (${two.join(", ")})`;
}
