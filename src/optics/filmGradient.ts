import { sech, tanhOver } from "./film.js";
import { attenuation } from "./infiniteFilm.js";

/** Reflectance of a film over a backing and its slopes with respect to K, S, thickness and backing. */
export interface FilmGradient {
  readonly reflectance: number;
  readonly byK: number;
  readonly byS: number;
  readonly byThickness: number;
  readonly byBacking: number;
}

/**
 * R(K, S, X, Rg) with its four slopes, K, S, X ≥ 0, 0 ≤ Rg ≤ 1 (not checked here). With τ = tanh(κX)/κ,
 * G = 1 + Kτ + Sτ(1−Rg), ω = (τ − X·sech²u)/κ², h = S/(K+2S), α = (1−h)τ + hX·sech²u, β = hτ + (1−h)X·sech²u:
 * G²·∂R/∂S = (1−Rg)²α + 2K²Rg·ω + Kτ²(1−Rg²), −G²·∂R/∂K = S(K+S)(1−Rg)²ω + 2Rg·β + Sτ²(1−Rg²),
 * ∂R/∂Rg = (sech u/G)², ∂R/∂X = ∂R/∂Rg·(S(1−Rg)² − 2K·Rg).
 * Sums of like signs only, so nothing cancels: relative error ≤ 1e−12, but for ∂R/∂X, which passes through 0 at
 * Rg = R∞ and is that exact relative to ∂R/∂Rg·(S(1−Rg)² + 2K·Rg). Source: Kubelka 1948, differentiated by hand.
 */
export function filmGradient(k: number, s: number, thickness: number, backing: number): FilmGradient {
  const kappa = attenuation(k, s);
  const u = kappa * thickness;
  const tau = tanhOver(kappa, u, thickness);
  const secant = sech(u);
  const shade = 1 - backing;
  const g = 1 + (k + s * shade) * tau;

  const deep = thickness * secant * secant;
  const omega = saturation(kappa, u, thickness, tau);
  const h = s === 0 ? 0 : s / (k + 2 * s);
  const alpha = (1 - h) * tau + h * deep;
  const beta = h * tau + (1 - h) * deep;
  const around = tau * tau * shade * (1 + backing);

  const reflectance = (s * tau + ((secant * secant) / g) * backing) / (1 + (k + s) * tau);
  const byBacking = (secant / g) * (secant / g);
  return {
    reflectance,
    byK: -(s * (k + s) * shade * shade * omega + 2 * backing * beta + s * around) / (g * g),
    byS: (shade * shade * alpha + 2 * k * k * backing * omega + k * around) / (g * g),
    byThickness: byBacking * (s * shade * shade - 2 * k * backing),
    byBacking,
  };
}

/**
 * ω = (τ − X·sech²u)/κ² = (sinh 2u − 2u)/(2κ³cosh²u). Below u = ½ the series of sinh x − x replaces a difference
 * of nearly equal numbers; the first term left out is below 2e−14 of the sum.
 */
function saturation(kappa: number, u: number, thickness: number, tau: number): number {
  const secant = sech(u);
  if (u >= 0.5) return (tau - thickness * secant * secant) / (kappa * kappa);
  const x2 = 4 * u * u;
  const series =
    1 + (x2 / 20) * (1 + (x2 / 42) * (1 + (x2 / 72) * (1 + (x2 / 110) * (1 + (x2 / 156) * (1 + x2 / 210)))));
  return ((2 * thickness ** 3) / 3) * secant * secant * series;
}
