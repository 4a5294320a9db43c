import { metamerismInLab, metamerismInXyz } from "../colorimetry/metamerism.js";
import type { CheckGroup } from "./check.js";
import {
  METAMERIC_PAIR_IN_LAB as LAB,
  METAMERIC_PAIR_INDICES,
  METAMERIC_PAIR_WHITE,
  METAMERIC_PAIR_IN_XYZ as XYZ,
} from "./data/metamericPair.js";

/** Metamerism indices of one pair, brought to a match in Lab and in XYZ. */
export function metamerismChecks(): readonly CheckGroup[] {
  return [
    {
      title: "Metamerism index from D65 to A, 10°",
      source:
        "colour-science, metamerism_index.py, which cites ISO 18314-4:2024 (whether the standard prints these numbers is not known)",
      known: "seen",
      checks: METAMERIC_PAIR_INDICES.map(([space, correction, expected, allowed]) => ({
        name: `corrected in ${space}, ${correction}`,
        measure: "absolute",
        allowed,
        figures: () => {
          const got =
            space === "Lab"
              ? metamerismInLab(LAB.standard, LAB.sample, correction)
              : metamerismInXyz(XYZ.standard, XYZ.sample, METAMERIC_PAIR_WHITE, correction);
          return [{ name: "M", expected, got }];
        },
      })),
    },
  ];
}
