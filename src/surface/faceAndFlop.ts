import { type Geometry, geometryFacts } from "./geometry.js";

/** The angle nearest the mirror's and the one furthest from it. */
export interface FaceAndFlop {
  readonly face: Geometry;
  readonly flop: Geometry;
}

/** Face and flop among geometries; undefined where fewer than two are told by their angle from the mirror's. */
export function faceAndFlop(geometries: readonly Geometry[]): FaceAndFlop | undefined {
  const angle = (geometry: Geometry) => geometryFacts(geometry).aspecular ?? 0;
  // Between two as far from the mirror's angle the one towards the normal comes first.
  const sorted = [...new Set(geometries)]
    .filter((geometry) => geometryFacts(geometry).aspecular !== undefined)
    .sort((a, b) => Math.abs(angle(a)) - Math.abs(angle(b)) || angle(b) - angle(a));
  return sorted.length < 2 ? undefined : { face: sorted[0], flop: sorted[sorted.length - 1] };
}
