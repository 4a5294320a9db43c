import { absorptionRatio } from "./infiniteFilm.js";

/** Internal reflectances (surface removed) of one film over two backings, at one wavelength, each in 0…1. */
export interface BackingPair {
  readonly backings: readonly [number, number];
  readonly films: readonly [number, number];
}

/**
 * What two backings tell: K and S times thickness, and K/S (`Infinity` where no scattering shows); or K/S alone;
 * or nothing, and why.
 */
export type FilmFromBackings =
  | { readonly status: "identified"; readonly kx: number; readonly sx: number; readonly ratio: number }
  | { readonly status: "ratio-only"; readonly reason: "hides fully"; readonly ratio: number }
  | {
      readonly status: "not-identifiable";
      readonly reason: "backings too alike" | "too dark" | "not a Kubelka–Munk film";
    };

/** How close two reflectances count as equal. */
export const TWO_BACKINGS_DEFAULTS = Object.freeze({
  /** Reflectances closer than this are taken as equal: |ΔR| ≤ resolution. */
  resolution: 1e-9,
});

const NOT_A_FILM = { status: "not-identifiable", reason: "not a Kubelka–Munk film" } as const;

/**
 * KX and SX of a film read over two backings: z(Rₙ+gₙ) − t(1−Rₙ)(1−gₙ) = gₙ − Rₙ, n = 1, 2, is linear in z = Kτ
 * and t = Sτ, τ = tanh(u)/κ; then tanh²u = z(z+2t), sech²u = (R₂−R₁)G₁G₂/(g₂−g₁) with Gₙ = 1 + z + t(1−gₙ), and
 * KX, SX = z, t · u/tanh u. Neither backing need be black, and the film may be clear (S = 0), white (K = 0) or
 * absent. Where it hides only K/S is known, at no reflectance at all not even that. A z or t below 0 by no more
 * than an error of `resolution` in the readings can make it is 0. Source: Kubelka 1948, solved for K and S.
 */
export function filmFromBackings(
  { backings, films }: BackingPair,
  { resolution }: { readonly resolution: number } = TWO_BACKINGS_DEFAULTS,
): FilmFromBackings {
  const darkFirst = backings[0] <= backings[1];
  const [g1, g2] = darkFirst ? backings : [backings[1], backings[0]];
  const [r1, r2] = darkFirst ? films : [films[1], films[0]];
  if (g2 - g1 <= resolution) return { status: "not-identifiable", reason: "backings too alike" };
  if (Math.min(r1, r2) < -resolution || Math.max(r1, r2) > 1 + resolution) return NOT_A_FILM;
  if (Math.abs(r2 - r1) <= resolution) {
    const r = (r1 + r2) / 2;
    if (r <= resolution) return { status: "not-identifiable", reason: "too dark" };
    return { status: "ratio-only", reason: "hides fully", ratio: absorptionRatio(r) };
  }
  const [p1, q1, p2, q2] = [r1 + g1, (1 - r1) * (1 - g1), r2 + g2, (1 - r2) * (1 - g2)];
  const determinant = p2 * q1 - p1 * q2;
  const z = ((g2 - r2) * q1 - (g1 - r1) * q2) / determinant;
  const t = (2 * (g2 * r1 - g1 * r2)) / determinant;
  const slack = (4 * resolution) / determinant;
  if (r2 < r1 || !(determinant > 0) || z < -slack || t < -slack) return NOT_A_FILM;

  const absorbing = Math.max(0, z);
  const scattering = Math.max(0, t);
  const g = (backing: number) => 1 + absorbing + scattering * (1 - backing);
  const sechSquare = ((r2 - r1) * g(g1) * g(g2)) / (g2 - g1);
  const u = Math.asinh(Math.sqrt(absorbing * (absorbing + 2 * scattering)) / Math.sqrt(sechSquare));
  const stretch = u > 0 ? u / Math.tanh(u) : 1;
  return {
    status: "identified",
    kx: absorbing * stretch,
    sx: scattering * stretch,
    ratio: scattering > 0 ? absorbing / scattering : Number.POSITIVE_INFINITY,
  };
}
