import { attenuation } from "./infiniteFilm.js";

/** A homogeneous film by itself: what it reflects over ideal black and what it lets through. */
export interface Film {
  readonly reflectance: number;
  readonly transmittance: number;
}

/** Where tanh(u)/κ loses digits to the division, its series does not. */
const SERIES_BELOW = 1e-3;

/**
 * Kubelka–Munk film of absorption K and scattering S (per unit thickness, ≥ 0) and thickness X (≥ 0).
 * κ = √(K(K+2S)), u = κX, τ = tanh(u)/κ, D = 1 + (K+S)τ; R₀ = Sτ/D, T = sech(u)/D.
 * No division by S and no cancellation: the limits K = 0, S = 0, X → 0 and X → ∞ come by themselves.
 * Relative error over K, S ∈ [1e−12, 1e6], X ∈ [1e−6, 1e3]: R₀ ≤ 2e−15, T and R ≤ 1e−12. Numbers are not checked here.
 * Source: Kubelka 1948, rearranged.
 */
export function film(k: number, s: number, thickness: number): Film {
  const kappa = attenuation(k, s);
  const u = kappa * thickness;
  const tau = tanhOver(kappa, u, thickness);
  const d = 1 + (k + s) * tau;
  return { reflectance: (s * tau) / d, transmittance: sech(u) / d };
}

/**
 * Reflectance of a film laid on a backing of reflectance Rg in 0…1: R₀ + T²Rg/(1 − R₀Rg) (Kubelka 1948). Since
 * R₀ + T ≤ 1 the denominator is never below T; saying so keeps a rounded 0 from dividing where both are mirrors.
 */
export function overBacking({ reflectance, transmittance }: Film, backing: number): number {
  const gap = Math.max(1 - reflectance * backing, transmittance, Number.MIN_VALUE);
  return reflectance + (transmittance * transmittance * backing) / gap;
}

/** tanh(κX)/κ with its limit X at κ = 0. */
export function tanhOver(kappa: number, u: number, thickness: number): number {
  if (u < SERIES_BELOW) {
    const square = u * u;
    return thickness * (1 - square / 3 + (2 * square * square) / 15);
  }
  const e = Math.exp(-u);
  return -Math.expm1(-2 * u) / (1 + e * e) / kappa;
}

/** 1/cosh(u) for u ≥ 0 without overflow. */
export function sech(u: number): number {
  const e = Math.exp(-u);
  return (2 * e) / (1 + e * e);
}
