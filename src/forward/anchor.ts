import { InputError } from "../core/InputError.js";
import { absorptionRatio, reflectivity } from "../optics/infiniteFilm.js";
import {
  internalReflectance,
  measuredReflectance,
  measuredSlope,
  type SurfaceTerms,
} from "../surface/saunderson.js";
import { mix } from "../toners/coefficients.js";
import type { ForwardModel } from "./forwardModel.js";

/** Standard deviations by which the tie to a card weighs its two explanations. */
export interface AnchorOptions {
  /** Of the cans: sd of ln of the factor on K. */
  readonly strengthSd: number;
  /** Of the card: sd of reflectance for reasons other than toners (gloss, film build, traces). */
  readonly reflectanceSd: number;
}

/** The strength is typical of tinters, no source; the reflectance was measured in a world of other physics. */
export const ANCHOR_DEFAULTS: AnchorOptions = Object.freeze({ strengthSd: 0.2, reflectanceSd: 0.01 });

/** The factor is held within this many standard deviations; the rest is attributed to the pot. */
const MOST_SDS = 3;

/** Measured reflectance less than this above the surface's own reflection carries no usable K/S (design value). */
export const DARKEST = 5e-4;

/**
 * Ties the model to the card sprayed from `pot` so that at that pot it returns the card exactly; from there the
 * model speaks only of differences. What the model misses at a band, q_card·S − K, is split between a factor on
 * all absorption (cans stronger or weaker than said) and an absorption of its own that no toner explains (ghost):
 * the likeliest split when ln-strength has sd σ_s and reflectance sd σ_R, with σ_x = S·|dq/dR|·σ_R,
 * scale = 1 + D·K·σ_s²/(K²σ_s² + σ_x²) held within e^±3σ_s, ghost = K + D − scale·K. K̂ ≥ 0 after any addition.
 * Censored bands return the card too: what K/S cannot say is carried as a shift of R.
 */
export function anchorToCard(
  model: ForwardModel,
  pot: ArrayLike<number>,
  card: Float64Array,
  { strengthSd, reflectanceSd }: AnchorOptions = ANCHOR_DEFAULTS,
): ForwardModel {
  const { size } = model.coefficients;
  const k = new Float64Array(size);
  const s = new Float64Array(size);
  mix(model.coefficients, pot, k, s);
  const scale = new Float64Array(size);
  const ghost = new Float64Array(size);
  const shift = new Float64Array(size);
  const bands = model.set.grid.count;
  const furthest = Math.exp(MOST_SDS * strengthSd);
  for (let b = 0; b < size; b++) {
    if (!(s[b] > 0)) {
      const nm = model.set.grid.start + (b % bands) * model.set.grid.step;
      throw new InputError("no-pigment", "pot", `nothing in the pot scatters light at ${nm} nm`);
    }
    const surface = model.surfaces[Math.floor(b / bands)];
    const internal = usableInternal(card[b], surface);
    const missing = absorptionRatio(internal) * s[b] - k[b];
    const ratioPerMeasured =
      ((1 - internal) * (1 + internal)) / (2 * internal * internal) / measuredSlope(internal, surface);
    const byStrength = (k[b] * strengthSd) ** 2;
    const byReading = (s[b] * ratioPerMeasured * reflectanceSd) ** 2;
    const share = byStrength + byReading > 0 ? byStrength / (byStrength + byReading) : 0;
    const likeliest = k[b] > 0 ? 1 + (missing / k[b]) * share : 1;
    scale[b] = Math.min(furthest, Math.max(1 / furthest, likeliest));
    // Written as a difference so that scale·K + ghost meets the card to the last digit.
    ghost[b] = k[b] + missing - scale[b] * k[b];
    const back = measuredReflectance(reflectivity(scale[b] * k[b] + ghost[b], s[b]), surface);
    shift[b] = card[b] - back;
  }
  return { ...model, anchor: { scale, ghost, shift } };
}

/** Internal reflectance from which K/S can be computed: censored readings are moved to the edge of the usable range. */
export function usableInternal(measured: number, surface: SurfaceTerms): number {
  const darkest = internalReflectance(surface.offset + DARKEST, surface);
  return Math.min(1, Math.max(darkest, internalReflectance(measured, surface)));
}

/** Indices of the bands whose reading says less than K/S needs: at the surface's own reflection, or above white. */
export function censoredBands(measured: Float64Array, surface: SurfaceTerms): readonly number[] {
  const isCensored = (value: number) =>
    value - surface.offset < DARKEST || internalReflectance(value, surface) > 1;
  return Array.from(measured.keys()).filter((b) => isCensored(measured[b]));
}
