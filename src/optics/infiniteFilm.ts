/** κ = √(K(K+2S)): how fast diffuse light dies away with depth (Kubelka & Munk 1931). K, S ≥ 0, same unit. */
export function attenuation(k: number, s: number): number {
  return Math.sqrt(k * (k + 2 * s));
}

/**
 * Reflectivity R∞ = S/(K + S + κ) of a film so thick that its backing does not show, 0…1. K, S ≥ 0 in the same
 * unit, not both zero (the result is then NaN: nothing absorbs or scatters). No division by S.
 * Slopes: ∂R∞/∂K = −R∞/κ, ∂R∞/∂S = K/(κ(K + S + κ)). Source: Kubelka & Munk 1931.
 */
export function reflectivity(k: number, s: number): number {
  return s / (k + s + attenuation(k, s));
}

/** Reflectivity from the ratio q = K/S ≥ 0: R∞ = 1/(1 + q + √(q(q+2))). Inverse of `absorptionRatio`. */
export function reflectivityFromRatio(ratio: number): number {
  return 1 / (1 + ratio + Math.sqrt(ratio * (ratio + 2)));
}

/** q = K/S = (1 − R∞)²/(2R∞) for 0 < R∞ ≤ 1 (Kubelka & Munk 1931). Inverse of `reflectivityFromRatio`. */
export function absorptionRatio(reflectance: number): number {
  return ((1 - reflectance) * (1 - reflectance)) / (2 * reflectance);
}

/** dR∞/dq = −2R²/(1 − R²) at reflectivity R; −∞ at R = 1, where the first trace of absorption darkens most. */
export function reflectivitySlope(reflectance: number): number {
  return (-2 * reflectance * reflectance) / ((1 - reflectance) * (1 + reflectance));
}
