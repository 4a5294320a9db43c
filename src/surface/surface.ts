import { checkNumber, pathTo } from "../core/check.js";
import { InputError } from "../core/InputError.js";
import { number } from "../core/shape/number.js";
import { optional } from "../core/shape/optional.js";
import { record } from "../core/shape/record.js";
import { rule } from "../core/shape/rule.js";
import { diffuseInternalReflectance, fresnelReflectance } from "./fresnel.js";
import { GEOMETRY, type Geometry, geometryFacts } from "./geometry.js";

/** What the boundary of air and paint does to a reading at one geometry (Saunderson 1942). */
export interface Surface {
  /** Each but once in a set. */
  readonly geometry: Geometry;
  /** Reflected outside before the light enters, 0 ≤ k1 < 1. */
  readonly k1: number;
  /** Reflected back inside before the light leaves, 0 ≤ k2 < 1. */
  readonly k2: number;
  /** Specular excluded: share of k1 that the trap lets by, 0…1 (fitted); absent means none. */
  readonly specularRest?: number;
  /** Directional: loss of both crossings, (1−F(θin))(1−F(θout))/n²; absent means (1−k1)(1−k2). */
  readonly crossing?: number;
  /**
   * Directional: how many times as bright as a matt film the brightest film may be, ≥ 1; 1 when absent. Flake sends more
   * light near the mirror angle than any white. `characterise` finds it from the films with flake or pearl.
   */
  readonly brightness?: number;
}

const OPTIONAL_FOR = {
  specularRest: "specular-excluded",
  crossing: "directional",
  brightness: "directional",
} as const;

const SHARE = number({ min: 0, max: 1, belowMax: true });

/**
 * A surface. k1 + k2 ≥ 1 (a film of index above 2.2) is refused: the inverse of Saunderson's formula then has its pole
 * inside the measurable range, and a reading below k1 would turn up brighter than white.
 */
export const SURFACE = rule(
  record<Surface>({
    geometry: GEOMETRY,
    k1: SHARE,
    k2: SHARE,
    specularRest: optional(number({ min: 0, max: 1 })),
    crossing: optional(number({ min: 0, max: 1, aboveMin: true })),
    brightness: optional(number({ min: 1, max: 50 })),
  }),
  checkSurface,
);

function checkSurface(surface: Surface, path: string): void {
  const { geometry, k1, k2 } = surface;
  if (k1 + k2 >= 1) {
    const reason = `k1 + k2 = ${k1 + k2} is too large: less than 1`;
    throw new InputError("out-of-range", pathTo(path, "k2"), reason);
  }
  for (const key of ["specularRest", "crossing", "brightness"] as const) {
    if (surface[key] === undefined || geometryFacts(geometry).kind === OPTIONAL_FOR[key]) continue;
    throw new InputError("unknown-key", pathTo(path, key), `has no meaning for the geometry "${geometry}"`);
  }
}

/**
 * The surface of a smooth film of refractive index 1.01 ≤ n ≤ 2 for a geometry: k1 the Fresnel reflectance at the
 * incidence of the light (8° counts as 0°), k2 the diffuse internal reflectance; for fixed directions the crossing
 * (1−F(θin))(1−F(θout))/n². n = 1.5: k1 = 0.0400, k2 = 0.5963 (Judd 1942; Duntley 1942).
 */
export function surfaceFromIndex(geometry: Geometry, n: number): Surface {
  checkNumber(n, "n", { min: 1.01, max: 2 });
  const { kind, incidence = 0, view = 0 } = geometryFacts(geometry);
  const reflected = (degrees: number) => fresnelReflectance(Math.cos((degrees * Math.PI) / 180), n);
  const surface = { geometry, k1: reflected(incidence), k2: diffuseInternalReflectance(n) };
  if (kind !== "directional") return surface;
  return { ...surface, crossing: ((1 - reflected(incidence)) * (1 - reflected(view))) / (n * n) };
}
