import { checkText } from "../core/check.js";
import { didYouMean } from "../core/didYouMean.js";
import { InputError } from "../core/InputError.js";

/** How the surface shows up in a reading: counted in, kept out, or crossed once each way in fixed directions. */
export type GeometryKind = "specular-included" | "specular-excluded" | "directional";

/** What the arithmetic needs to know of a geometry. */
export interface GeometryFacts {
  readonly kind: GeometryKind;
  /** Angles of light and view from the normal in air, degrees; a diffuse geometry has none that matter. */
  readonly incidence?: number;
  readonly view?: number;
}

/**
 * The measuring geometries by name: CIE 15 (d:8, 45:0) and the aspecular angles of multi-angle instruments under
 * 45° light (ASTM E2194, E2539; the angle sets from memory). View angle from the normal = |45 − aspecular|.
 */
export const GEOMETRIES = Object.freeze({
  "d:8 specular included": { kind: "specular-included" },
  "d:8 specular excluded": { kind: "specular-excluded" },
  "45:0": { kind: "directional", incidence: 45, view: 0 },
  "45as-15": { kind: "directional", incidence: 45, view: 60 },
  "45as15": { kind: "directional", incidence: 45, view: 30 },
  "45as25": { kind: "directional", incidence: 45, view: 20 },
  "45as45": { kind: "directional", incidence: 45, view: 0 },
  "45as75": { kind: "directional", incidence: 45, view: 30 },
  "45as110": { kind: "directional", incidence: 45, view: 65 },
} as const satisfies Record<string, GeometryFacts>);

/** A measuring geometry by name: one of the keys of `GEOMETRIES`. */
export type Geometry = keyof typeof GEOMETRIES;

/** Throws `unknown-geometry` with the list of known ones. */
export function checkGeometry(value: unknown, path: string): Geometry {
  const name = checkText(value, path);
  if (Object.hasOwn(GEOMETRIES, name)) return name as Geometry;
  const known = Object.keys(GEOMETRIES);
  throw new InputError(
    "unknown-geometry",
    path,
    `"${name}" is not a geometry known here: ${known.join(", ")}.${didYouMean(name, known)}`,
  );
}

/** Kind and angles of a geometry. */
export function geometryFacts(geometry: Geometry): GeometryFacts {
  return GEOMETRIES[geometry];
}
