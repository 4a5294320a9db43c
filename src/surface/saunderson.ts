import { geometryFacts } from "./geometry.js";
import type { Surface } from "./surface.js";

/**
 * What a surface comes down to: Rm = offset + gain·Ri/(1 − k2·Ri), with offset·k2 < gain. Where cards have shown that the
 * light kept inside depends on the film, κ = k2 + rise·(Ri − ½) takes the place of k2 and gain·(1 − κ)/(1 − k2) that of gain.
 */
export interface SurfaceTerms {
  readonly offset: number;
  readonly gain: number;
  readonly k2: number;
  /** 0 when absent. */
  readonly rise?: number;
}

/**
 * Terms for a geometry: specular included adds k1; specular excluded adds nothing, or its fitted rest a·k1; fixed
 * directions add nothing and gain their own crossing loss, times the brightness of the geometry. Otherwise
 * gain = (1−k1)(1−k2). Source: Saunderson 1942; ISO 18314-2; brightness is our own.
 */
export function surfaceTerms(surface: Surface): SurfaceTerms {
  const { geometry, k1, k2, specularRest = 0, crossing, brightness = 1 } = surface;
  const throughBoth = (1 - k1) * (1 - k2);
  switch (geometryFacts(geometry).kind) {
    case "specular-included":
      return { offset: k1, gain: throughBoth, k2 };
    case "specular-excluded":
      return { offset: specularRest * k1, gain: throughBoth, k2 };
    case "directional":
      return { offset: 0, gain: (crossing ?? throughBoth) * brightness, k2 };
  }
}

/** Measured reflectance factor Rm of a film of internal reflectance Ri (0…1). Inverse of `internalReflectance`. */
export function measuredReflectance(internal: number, { offset, gain, k2, rise = 0 }: SurfaceTerms): number {
  const kept = k2 + rise * (internal - 0.5);
  return offset + (gain * ((1 - kept) / (1 - k2)) * internal) / (1 - kept * internal);
}

/**
 * Internal reflectance Ri = 2B/(A + √(A² − 4·rise·(c − B)·B)) of a measured Rm, with B = Rm − offset, c = gain/(1 − k2),
 * a = k2 − rise/2 and A = aB + c(1 − a); without a rise B/(gain + k2·B). At or below the surface's own reflection the
 * result is ≤ 0, above a perfect white it is > 1: the caller decides, nothing is clamped here.
 */
export function internalReflectance(measured: number, { offset, gain, k2, rise = 0 }: SurfaceTerms): number {
  const below = measured - offset;
  if (rise === 0) return below / (gain + k2 * below);
  const through = gain / (1 - k2);
  const atBlack = k2 - rise / 2;
  const half = atBlack * below + through * (1 - atBlack);
  return (2 * below) / (half + Math.sqrt(half * half - 4 * rise * (through - below) * below));
}

/** dRm/dRi = c((1 − κ) − rise·Ri(1 − Ri))/(1 − κ·Ri)², c = gain/(1 − k2). */
export function measuredSlope(internal: number, { gain, k2, rise = 0 }: SurfaceTerms): number {
  const kept = k2 + rise * (internal - 0.5);
  const through = 1 - kept * internal;
  return ((gain / (1 - k2)) * (1 - kept - rise * internal * (1 - internal))) / (through * through);
}
