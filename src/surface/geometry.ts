import { keyOf } from "../core/shape/oneOf.js";

/** How the surface shows up in a reading: counted in, kept out, or crossed once each way in fixed directions. */
export type GeometryKind = "specular-included" | "specular-excluded" | "directional";

/** All that is known of a geometry. */
export interface GeometryFacts {
  readonly kind: GeometryKind;
  /** Angles of light and view from the normal in air, degrees; a diffuse geometry has none that matter. */
  readonly incidence?: number;
  readonly view?: number;
  /** Degrees from the mirror angle towards the normal, where the geometry is told by that. */
  readonly aspecular?: number;
  /** Largest reflectance factor that paint gives; more is per cent written where a fraction belongs. */
  readonly largest: number;
}

/**
 * The measuring geometries by name: CIE 15 (d:8, 45:0) and the aspecular angles of multi-angle instruments under
 * 45° light (ASTM E2194, E2539; the angle sets from memory). View angle from the normal = |45 − aspecular|. Near the
 * specular angle flake is brighter than any white (a bright silver read 15° off passes 2; from memory), elsewhere no
 * paint comes near 2. A new geometry is one entry here.
 */
export const GEOMETRIES = Object.freeze({
  "d:8 specular included": { kind: "specular-included", largest: 2 },
  "d:8 specular excluded": { kind: "specular-excluded", largest: 2 },
  "45:0": { kind: "directional", incidence: 45, view: 0, largest: 2 },
  "45as-15": { kind: "directional", incidence: 45, view: 60, aspecular: -15, largest: 20 },
  "45as15": { kind: "directional", incidence: 45, view: 30, aspecular: 15, largest: 20 },
  "45as25": { kind: "directional", incidence: 45, view: 20, aspecular: 25, largest: 20 },
  "45as45": { kind: "directional", incidence: 45, view: 0, aspecular: 45, largest: 2 },
  "45as75": { kind: "directional", incidence: 45, view: 30, aspecular: 75, largest: 2 },
  "45as110": { kind: "directional", incidence: 45, view: 65, aspecular: 110, largest: 2 },
} as const satisfies Record<string, GeometryFacts>);

/** A measuring geometry by name: one of the keys of `GEOMETRIES`. */
export type Geometry = keyof typeof GEOMETRIES;

/** A geometry that is known. Throws `unknown-geometry` with the list of known ones. */
export const GEOMETRY = keyOf(GEOMETRIES, "unknown-geometry");

/** What is known of a geometry. */
export function geometryFacts(geometry: Geometry): GeometryFacts {
  return GEOMETRIES[geometry];
}
