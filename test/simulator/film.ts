import { type Layer, layerOf, type Medium } from "./layer.js";
import { identity, plus, solve, times, timesVector } from "./square.js";
import type { Streams } from "./streams.js";

/**
 * Reflectance of a film over a matt backing, lit along its normal and gathered over the hemisphere, the specular part
 * included: 0:d, which by reciprocity is d:0 (Helmholtz). The boundary acts on every stream by itself, so the share
 * that it keeps inside depends on what the film makes of the light: there is no constant k2 here.
 */
export function filmReflectance(
  medium: Medium,
  thickness: number,
  backing: number,
  streams: Streams,
): number {
  const { cosines, weights, mirrored, k1 } = streams;
  const size = cosines.length;
  const below = overBacking(layerOf(medium, thickness, streams), backing, streams);
  // Light enters along the last stream, the normal: unit flux outside, so 2μw·I = 1 − k1 inside.
  const entering = new Float64Array(size);
  entering[size - 1] = (1 - k1) / (2 * weights[size - 1]);
  const returned = below.map((value, at) => mirrored[Math.floor(at / size)] * value);
  const down = solve(plus(identity(size), returned, -1), entering);
  const up = timesVector(below, down);
  return up.reduce(
    (sum, radiance, i) => sum + 2 * cosines[i] * weights[i] * (1 - mirrored[i]) * radiance,
    k1,
  );
}

/** Radiances sent up by a layer over a matt backing, per radiance sent down: R + T·B(E − RB)⁻¹·T, B = 2ρ·1(wμ)ᵀ. */
function overBacking({ reflected, transmitted }: Layer, backing: number, streams: Streams): Float64Array {
  const { cosines, weights } = streams;
  const size = cosines.length;
  const matt = Float64Array.from({ length: size * size }, (_, at) => {
    const j = at % size;
    return 2 * backing * weights[j] * cosines[j];
  });
  const gap = plus(identity(size), times(reflected, matt), -1);
  return plus(reflected, times(transmitted, times(matt, solve(gap, transmitted))));
}
