/** Why a mutant of a line may live: the change makes no difference, or none that a test should ask for. */
export const EXPLAINED = [
  { file: "optics/film.ts", line: "u < SERIES_BELOW", why: "series and closed form agree at the switch" },
  { file: "optics/filmGradient.ts", line: "u >= 0.5", why: "series and closed form agree at the switch" },
  {
    file: "optics/hiding.ts",
    line: "while (excess(",
    why: "a bracket with the root at its end is a bracket",
  },
  {
    file: "optics/hiding.ts",
    line: "let high",
    why: "no effect: the loop below walks up to the same bracket",
  },
  { file: "optics/hiding.ts", line: "high > 80", why: "e⁷⁶ or e⁸⁰ times the thickness: neither is a film" },
  {
    file: "optics/twoBackings.ts",
    line: "const darkFirst",
    why: "equal backings are refused on the next line",
  },
  {
    file: "optics/twoBackings.ts",
    line: "Math.min(r1, r2) < -resolution",
    why: "what passes here by mistake fails as z < 0 or t < 0 below; only two equal readings need it, and those are tested",
  },
  {
    file: "optics/twoBackings.ts",
    line: "r2 < r1",
    why: "R₂ = R₁ has returned above, the determinant is positive for R₂ > R₁, and at the bounds of z and t both answers are right",
  },
  {
    file: "surface/fresnel.ts",
    line: "sineSquareBeyond >= 1",
    why: "no effect: at exactly 1 the formula gives 1 too",
  },
  { file: "surface/surface.ts", line: "is too large", why: "wording of a refusal, put together beforehand" },
  {
    file: "colorimetry/weights.ts",
    line: "is too coarse",
    why: "wording of a refusal, put together beforehand",
  },
  {
    file: "colorimetry/weights.ts",
    line: "Math.floor(",
    why: "no effect: the grid goes on farther than the lamp reaches",
  },
  {
    file: "colorimetry/weights.ts",
    line: "const position",
    why: "no effect: the table ends before the grid does",
  },
  {
    file: "colorimetry/weights.ts",
    line: "c[k] * power",
    why: "no effect: all weights change sign, and so does the scale",
  },
  { file: "colorimetry/ciede2000.ts", line: "hue < 0", why: "no effect: 0 and 2π are one hue" },
  {
    file: "colorimetry/ciede2000.ts",
    line: "HALF_TURN",
    why: "exactly opposite hues, which doubles meet by chance only; the definition leaps there",
  },
  {
    file: "colorimetry/ciede2000.ts",
    line: "turn > 0 ?",
    why: "no effect: 2π on or off turn the half by half a turn, which is one way; 0 and 2π are one hue",
  },
  {
    file: "colorimetry/cmc.ts",
    line: "hue >= 164",
    why: "a hue of exactly 164° or 345°, which doubles do not meet",
  },
  {
    file: "colorimetry/lab.ts",
    line: "EPSILON ?",
    why: "no effect: both branches and their slopes meet there",
  },
  { file: "colorimetry/lab.ts", line: "6 / 29 ?", why: "no effect: both branches meet there" },
];
