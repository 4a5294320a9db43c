import { film, overBacking, sech, tanhOver } from "./film.js";

/** Reflectance of a film over a backing and its slopes with respect to K, S, thickness and backing. */
export interface FilmGradient {
  readonly reflectance: number;
  readonly byK: number;
  readonly byS: number;
  readonly byThickness: number;
  readonly byBacking: number;
}

/**
 * R(K, S, X, Rg) with its four partial derivatives, from the same stable form as `film`.
 * With w = κ²: ∂w/∂K = 2(K+S), ∂w/∂S = 2K, d ln sech(u)/dw = −Xτ/2, and ∂R/∂X = ∂R/∂Rg · (S − 2(K+S)Rg + SRg²),
 * which stays exact where the film hides and the Riccati form cancels. K, S, X ≥ 0, 0 ≤ Rg ≤ 1; not checked here.
 * Source: Kubelka 1948, differentiated by hand; tested against central differences.
 */
export function filmGradient(k: number, s: number, thickness: number, backing: number): FilmGradient {
  const kappa = Math.sqrt(k) * Math.sqrt(k + 2 * s);
  const u = kappa * thickness;
  const tau = tanhOver(kappa, u, thickness);
  const tauByW = slopeOfTau(kappa, u, thickness, tau);
  const tauByK = tauByW * 2 * (k + s);
  const tauByS = tauByW * 2 * k;

  const layer = film(k, s, thickness);
  const { reflectance: r0, transmittance: t } = layer;
  const d = 1 + (k + s) * tau;
  const r0ByK = (s * tauByK - s * tau * tau) / (d * d);
  const r0ByS = (s * tauByS + tau * (1 + k * tau)) / (d * d);
  const tByK = t * (-thickness * tau * (k + s) - (tau + (k + s) * tauByK) / d);
  const tByS = t * (-thickness * tau * k - (tau + (k + s) * tauByS) / d);

  const gap = 1 - r0 * backing;
  const throughBacking = (t * backing) / gap;
  const byR0 = 1 + throughBacking * throughBacking;
  const byT = 2 * throughBacking;
  const byBacking = (t / gap) * (t / gap);
  return {
    reflectance: overBacking(layer, backing),
    byK: r0ByK * byR0 + tByK * byT,
    byS: r0ByS * byR0 + tByS * byT,
    byThickness: byBacking * (s - 2 * (k + s) * backing + s * backing * backing),
    byBacking,
  };
}

/**
 * d(tanh(κX)/κ)/d(κ²) = (u·sech²u − tanh u)/(2κ³). The numerator is (2u − sinh 2u)/(2cosh²u), so below u = ½
 * the series of sinh x − x replaces a difference of nearly equal numbers.
 */
function slopeOfTau(kappa: number, u: number, thickness: number, tau: number): number {
  const secant = sech(u);
  if (u >= 0.5) return (thickness * secant * secant - tau) / (2 * kappa * kappa);
  const x2 = 4 * u * u;
  const series =
    1 + (x2 / 20) * (1 + (x2 / 42) * (1 + (x2 / 72) * (1 + (x2 / 110) * (1 + (x2 / 156) * (1 + x2 / 210)))));
  return (-(thickness ** 3) / 3) * secant * secant * series;
}
