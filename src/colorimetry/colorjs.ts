import {
  deltaE2000,
  deltaECMC,
  distance,
  inGamut,
  Lab_D65,
  Lab as LabSpace,
  sRGB,
  toGamutCSS,
} from "colorjs.io/fn";
import { checkTriple } from "./checkTriple.js";
import type { Lab } from "./lab.js";

/** A colour for the screen; `mapped` when sRGB cannot show it and chroma was given up. */
export interface DisplayColour {
  readonly hex: string;
  readonly mapped: boolean;
}

/**
 * What to paint on a screen for a Lab of any illuminant and observer, as `#rrggbb`. The white of those viewing
 * conditions is shown as the screen's white: X, Y, Z scaled by the ratio of the whites (von Kries in XYZ), which
 * for D65 changes nothing. Colours outside sRGB keep lightness and hue in OKLCh (CSS Color 4 gamut mapping).
 * A picture to recognise a colour by, not to judge it. Throws `wrong-length`, `not-finite` and the like.
 */
export function checkedSrgbHex(lab: Lab): DisplayColour {
  checkTriple(lab, "lab");
  return srgbHex(lab);
}

/** The same of a colour that was looked at before. */
export function srgbHex([lightness, a, b]: Lab): DisplayColour {
  const colour = { space: Lab_D65, coords: [lightness, a, b] satisfies [number, number, number], alpha: 1 };
  const mapped = !inGamut(colour, sRGB);
  const hex = toGamutCSS(colour, { space: sRGB })
    .coords.map((share) => Math.round(255 * (share ?? 0)))
    .map((byte) => byte.toString(16).padStart(2, "0"))
    .join("");
  return { hex: `#${hex}`, mapped };
}

/**
 * The library's own differences, to check ours against. Its `Lab` is fed with bare coordinates: any other space,
 * `Lab_D65` too, would be adapted to D50 first.
 */
export const colorjsDifferences = {
  cie76: (reference: Lab, sample: Lab) => distance(bare(reference), bare(sample), LabSpace),
  cmc: (reference: Lab, sample: Lab, options: { readonly l: number; readonly c: number }) =>
    deltaECMC(bare(reference), bare(sample), options),
  ciede2000: (reference: Lab, sample: Lab) => deltaE2000(bare(reference), bare(sample)),
};

function bare([lightness, a, b]: Lab) {
  return { space: LabSpace, coords: [lightness, a, b] satisfies [number, number, number], alpha: 1 };
}
