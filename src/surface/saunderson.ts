import { geometryFacts } from "./geometry.js";
import type { Surface } from "./surface.js";

/** The three numbers that a surface comes down to: Rm = offset + gain·Ri/(1 − k2·Ri), with offset·k2 < gain. */
export interface SurfaceTerms {
  readonly offset: number;
  readonly gain: number;
  readonly k2: number;
}

/**
 * Terms for a geometry: specular included adds k1; specular excluded adds nothing, or its fitted rest a·k1; fixed
 * directions add nothing and gain their own crossing loss. Otherwise gain = (1−k1)(1−k2).
 * Source: Saunderson 1942; ISO 18314-2.
 */
export function surfaceTerms(surface: Surface): SurfaceTerms {
  const { geometry, k1, k2, specularRest = 0, crossing } = surface;
  const throughBoth = (1 - k1) * (1 - k2);
  switch (geometryFacts(geometry).kind) {
    case "specular-included":
      return { offset: k1, gain: throughBoth, k2 };
    case "specular-excluded":
      return { offset: specularRest * k1, gain: throughBoth, k2 };
    case "directional":
      return { offset: 0, gain: crossing ?? throughBoth, k2 };
  }
}

/** Measured reflectance factor Rm of a film of internal reflectance Ri (0…1). Inverse of `internalReflectance`. */
export function measuredReflectance(internal: number, { offset, gain, k2 }: SurfaceTerms): number {
  return offset + (gain * internal) / (1 - k2 * internal);
}

/**
 * Internal reflectance Ri = (Rm − offset)/(gain + k2(Rm − offset)) of a measured Rm. At or below the surface's own
 * reflection the result is ≤ 0, above a perfect white it is > 1: the caller decides, nothing is clamped here.
 */
export function internalReflectance(measured: number, { offset, gain, k2 }: SurfaceTerms): number {
  const below = measured - offset;
  return below / (gain + k2 * below);
}

/** dRm/dRi = gain/(1 − k2·Ri)². */
export function measuredSlope(internal: number, { gain, k2 }: SurfaceTerms): number {
  const through = 1 - k2 * internal;
  return gain / (through * through);
}
