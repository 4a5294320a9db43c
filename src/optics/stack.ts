import type { Film } from "./film.js";

/** A layer that may look different from above and from below, such as the surface between air and paint. */
export interface Layer {
  readonly reflectanceAbove: number;
  readonly reflectanceBelow: number;
  readonly transmittanceDown: number;
  readonly transmittanceUp: number;
}

/** A homogeneous film is the same from both sides. */
export function filmLayer({ reflectance, transmittance }: Film): Layer {
  return {
    reflectanceAbove: reflectance,
    reflectanceBelow: reflectance,
    transmittanceDown: transmittance,
    transmittanceUp: transmittance,
  };
}

/** The boundary of air and paint: k1 reflected outside, k2 back inside (both diffuse, 0…1; Saunderson 1942). */
export function airBoundary({ k1, k2 }: { readonly k1: number; readonly k2: number }): Layer {
  return { reflectanceAbove: k1, reflectanceBelow: k2, transmittanceDown: 1 - k1, transmittanceUp: 1 - k2 };
}

/**
 * 1 − R₁′R₂, the light between two layers. Since R₁′ + T₁′ ≤ 1 it is never below T₁′; saying so keeps a rounded 0
 * from dividing between two mirrors.
 */
const gapBetween = (upper: Layer, below: number): number =>
  Math.max(1 - upper.reflectanceBelow * below, upper.transmittanceUp, Number.MIN_VALUE);

/**
 * One layer laid on another: T₁₂ = T₁T₂/(1 − R₁′R₂), R₁₂ = R₁ + T₁T₁′R₂/(1 − R₁′R₂), likewise from below.
 * Primes are "seen from below". Reflectances and transmittances in 0…1. Source: Kubelka 1954.
 */
export function lay(upper: Layer, lower: Layer): Layer {
  const gap = gapBetween(upper, lower.reflectanceAbove);
  return {
    reflectanceAbove:
      upper.reflectanceAbove +
      (upper.transmittanceDown * upper.transmittanceUp * lower.reflectanceAbove) / gap,
    reflectanceBelow:
      lower.reflectanceBelow +
      (lower.transmittanceUp * lower.transmittanceDown * upper.reflectanceBelow) / gap,
    transmittanceDown: (upper.transmittanceDown * lower.transmittanceDown) / gap,
    transmittanceUp: (lower.transmittanceUp * upper.transmittanceUp) / gap,
  };
}

/** Reflectance of layers, top first, over a backing in 0…1; from the bottom up, one layer at a time. */
export function stackReflectance(layers: readonly Layer[], backing: number): number {
  return layers.reduceRight(
    (below, layer) =>
      layer.reflectanceAbove +
      (layer.transmittanceDown * layer.transmittanceUp * below) / gapBetween(layer, below),
    backing,
  );
}
