import { colorjsDifferences } from "../../src/colorimetry/colorjs.js";
import type { IlluminantName } from "../../src/colorimetry/illuminant.js";
import type { Lab } from "../../src/colorimetry/lab.js";
import { tristimulusWeights } from "../../src/colorimetry/weights.js";
import { ANCHOR_DEFAULTS } from "../../src/forward/anchor.js";
import type { Grid } from "../../src/spectra/grid.js";
import type { Grams } from "../../src/toners/pot.js";
import type { TonerSet } from "../../src/toners/tonerSet.js";

/*
 * The forward model written a second time, band by band from the textbooks and apart from src, to check answers with
 * and to make cards with: R∞ = 1 + q − √(q² + 2q) (Kubelka & Munk 1931), Saunderson 1942 without specular, Lab of
 * CIE 15, and the colour differences of colorjs.io. It shares the tristimulus weights and the two constants of the
 * anchor with the package, nothing else.
 */

const GEOMETRY = "d:8 specular excluded";

/** A card and the pot that it was sprayed from. */
export interface Card {
  readonly pot: Grams;
  readonly reflectance: readonly number[];
}

/** Reflectance of an opaque film of `grams` on `grid` (a part of the toners' own), tied to a card when there is one. */
export function textbookReflectance(set: TonerSet, grid: Grid, grams: Grams, card?: Card): readonly number[] {
  const [{ k1, k2 }] = set.surfaces;
  const measured = (q: number) => {
    const inside = 1 + q - Math.sqrt(q * q + 2 * q);
    return ((1 - k1) * (1 - k2) * inside) / (1 - k2 * inside);
  };
  const ratio = (reflectance: number) => {
    const inside = reflectance / ((1 - k1) * (1 - k2) + k2 * reflectance);
    return (1 - inside) ** 2 / (2 * inside);
  };
  const first = Math.round((grid.start - set.grid.start) / set.grid.step);
  const total = (what: "k" | "s", of: Grams, band: number) =>
    set.toners.reduce(
      (sum, { id, strength = 1, [what]: spectra }) =>
        sum + (of[id] ?? 0) * strength * (spectra[GEOMETRY]?.[first + band] ?? Number.NaN),
      0,
    );
  return Array.from({ length: grid.count }, (_, band) => {
    const k = total("k", grams, band);
    const s = total("s", grams, band);
    if (!card) return measured(k / s);
    const potK = total("k", card.pot, band);
    const potS = total("s", card.pot, band);
    const onCard = card.reflectance[band];
    const step = 1e-5 * onCard;
    const slope = (ratio(onCard + step) - ratio(onCard - step)) / (2 * step);
    const byStrength = (potK * ANCHOR_DEFAULTS.strengthSd) ** 2;
    const byReading = (potS * slope * ANCHOR_DEFAULTS.reflectanceSd) ** 2;
    const missing = ratio(onCard) * potS - potK;
    const strength = potK > 0 ? (k / potK) * (byStrength / (byStrength + byReading)) : 0;
    const unexplained = byReading / (byStrength + byReading);
    return measured((k + missing * (strength + unexplained)) / s);
  });
}

/** Lab of a reflectance under an illuminant for the 10° observer. */
function textbookLab(reflectance: readonly number[], grid: Grid, illuminant: IlluminantName): Lab {
  const { x, y, z, white } = tristimulusWeights({ grid, illuminant, observer: "1964-10" });
  const [fx, fy, fz] = [x, y, z].map((weights, axis) => {
    const t = reflectance.reduce((sum, r, band) => sum + r * weights[band], 0) / white[axis];
    return t > (6 / 29) ** 3 ? Math.cbrt(t) : (841 / 108) * t + 4 / 29;
  });
  return [116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)];
}

/** CIEDE2000 of two reflectances on one grid, by colorjs.io. */
export function textbookDeltaE00(
  reference: readonly number[],
  sample: readonly number[],
  grid: Grid,
  illuminant: IlluminantName,
): number {
  return colorjsDifferences.ciede2000(
    textbookLab(reference, grid, illuminant),
    textbookLab(sample, grid, illuminant),
  );
}
