/** Internal reflectances (surface removed) of one film over two backings, at one wavelength, each in 0…1. */
export interface BackingPair {
  readonly backings: readonly [number, number];
  readonly films: readonly [number, number];
}

/** What two backings tell: K and S times thickness; or their ratio alone; or nothing, and why. */
export type FilmFromBackings =
  | { readonly status: "identified"; readonly kx: number; readonly sx: number; readonly ratio: number }
  | { readonly status: "ratio-only"; readonly reason: "hides fully"; readonly ratio: number }
  | {
      readonly status: "not-identifiable";
      readonly reason: "backings too alike" | "too dark" | "not a Kubelka–Munk film";
    };

export const TWO_BACKINGS_DEFAULTS = Object.freeze({
  /** Reflectances closer than this are taken as equal: |ΔR| ≤ resolution. */
  resolution: 1e-9,
});

/**
 * KX and SX of a film read over two backings, from a(Rₙ+gₙ) + c(Rₙ−gₙ) = 1 + Rₙgₙ, n = 1, 2, linear in
 * a = 1 + K/S and c = b·coth(bSX); b = √(a²−1), SX = atanh(b/c)/b, KX = (a−1)SX. The linear system is the
 * classical closed form made symmetric: neither backing need be ideal black. Where the film hides, only K/S is
 * known; where it is too dark to scatter measurably, nothing is. Source: Kubelka 1948.
 */
export function filmFromBackings(
  { backings, films }: BackingPair,
  { resolution }: { readonly resolution: number } = TWO_BACKINGS_DEFAULTS,
): FilmFromBackings {
  const [g1, g2] = backings;
  const [r1, r2] = films;
  if (Math.abs(g1 - g2) <= resolution) return { status: "not-identifiable", reason: "backings too alike" };
  if (Math.abs(r1 - r2) <= resolution) {
    const r = (r1 + r2) / 2;
    if (r <= resolution) return { status: "not-identifiable", reason: "too dark" };
    return { status: "ratio-only", reason: "hides fully", ratio: ((1 - r) * (1 - r)) / (2 * r) };
  }
  const determinant = 2 * (g1 * r2 - g2 * r1);
  // The determinant is 2·S·(…): it vanishes with scattering, whatever the absorption.
  if (Math.abs(determinant) <= 2 * resolution * Math.abs(g1 - g2)) {
    return { status: "not-identifiable", reason: "too dark" };
  }
  const p1 = 1 + r1 * g1;
  const p2 = 1 + r2 * g2;
  const a = (p1 * (r2 - g2) - p2 * (r1 - g1)) / determinant;
  const c = ((r1 + g1) * p2 - (r2 + g2) * p1) / determinant;
  const ratio = a - 1;
  if (ratio < -resolution || c <= 0) return { status: "not-identifiable", reason: "not a Kubelka–Munk film" };
  const b = Math.sqrt(Math.max(0, ratio * (a + 1)));
  if (b >= c) return { status: "ratio-only", reason: "hides fully", ratio: Math.max(0, ratio) };
  const sx = b < 1e-6 * c ? 1 / c : Math.atanh(b / c) / b;
  return { status: "identified", kx: Math.max(0, ratio) * sx, sx, ratio: Math.max(0, ratio) };
}
