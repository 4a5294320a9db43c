import { fresnelReflectance } from "../../src/surface/fresnel.js";
import type { Geometry } from "../../src/surface/geometry.js";
import { gauss, legendre } from "../simulator/quadrature.js";
import { solve } from "../simulator/square.js";

/** Directions in which light travels inside a film, by the cosine to its normal, the same both ways. */
export interface Directions {
  readonly index: number;
  readonly cosines: readonly number[];
  readonly weights: readonly number[];
  /** Share that the boundary with air sends back inside. */
  readonly mirrored: readonly number[];
  /** The beam that lights the film: its place, and what of it enters. */
  readonly beam: { readonly at: number; readonly enters: number };
  readonly views: readonly View[];
}

/** Where an instrument looks from. */
export interface View {
  readonly geometry: Geometry;
  readonly at: number;
  /** Whether it looks from the side that the light comes from, the normal included. */
  readonly onLightSide: boolean;
}

/** The aspecular angles of a six-angle instrument, with the degrees in air from the normal. */
const SIX_ANGLES = {
  "45as-15": 60,
  "45as15": 30,
  "45as25": 20,
  "45as45": 0,
  "45as75": 30,
  "45as110": 65,
} as const;
export type Angle = keyof typeof SIX_ANGLES;
export const ANGLES = Object.keys(SIX_ANGLES) as readonly Angle[];

const INDEX = 1.5;
const BEAM = 45;
const BELOW_CRITICAL = 5;
/** Cosines beside those of beam and views, chosen so that all weights of the rule above the critical one are positive. */
const BETWEEN = [0.7547, 0.7816, 0.8558, 0.9225, 0.978];

/**
 * A Gauss rule below the critical cosine of index 1.5; above it a rule whose nodes are the refracted beam, the views
 * and five more, exact for polynomials of one degree less than it has nodes.
 */
export function createDirections(): Directions {
  const critical = Math.sqrt(1 - 1 / INDEX ** 2);
  const refracted = (degrees: number) => Math.sqrt(1 - (Math.sin((degrees * Math.PI) / 180) / INDEX) ** 2);
  const grazing = gauss(BELOW_CRITICAL, 0, critical);
  const seen = [...new Set([BEAM, ...Object.values(SIX_ANGLES)])].map(refracted);
  const steep = [...BETWEEN, ...seen].sort((a, b) => a - b);
  const cosines = [...grazing.nodes, ...steep];
  const beamAt = cosines.indexOf(refracted(BEAM));
  return {
    index: INDEX,
    cosines,
    weights: [...grazing.weights, ...weightsOf(steep, critical)],
    mirrored: cosines.map((cosine) => fresnelReflectance(cosine, 1 / INDEX)),
    beam: { at: beamAt, enters: 1 - fresnelReflectance(Math.cos((BEAM * Math.PI) / 180), INDEX) },
    views: ANGLES.map((geometry) => ({
      geometry,
      at: cosines.indexOf(refracted(SIX_ANGLES[geometry])),
      onLightSide: Number(geometry.slice(4)) >= 45,
    })),
  };
}

/** Weights for ∫f over [low, 1] with given nodes: they integrate Legendre's polynomials exactly. */
function weightsOf(nodes: readonly number[], low: number): readonly number[] {
  const count = nodes.length;
  const values = nodes.map((node) => legendre(count - 1, (2 * (node - low)) / (1 - low) - 1));
  const matrix = Float64Array.from(
    { length: count * count },
    (_, at) => values[at % count][Math.floor(at / count)],
  );
  const integrals = new Float64Array(count);
  integrals[0] = 1 - low;
  return [...solve(matrix, integrals)];
}
