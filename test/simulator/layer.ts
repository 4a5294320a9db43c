import { identity, plus, type Square, solve, times } from "./square.js";
import type { Streams } from "./streams.js";

/** What a homogeneous layer does to the radiances of the streams that enter it from either side. */
export interface Layer {
  readonly reflected: Square;
  readonly transmitted: Square;
}

/** Absorption and scattering (after delta scaling) per unit of depth, and where the scattering goes. */
export interface Medium {
  readonly absorption: number;
  readonly scattering: number;
  /** Σ of kept scattering times its matrices, `on` and `back`, per unit of depth. */
  readonly on: Square;
  readonly back: Square;
}

/** The first, thin layer is this deep in mean free paths, over the flattest stream's cosine. */
const FIRST_DEPTH = 0.1;

/**
 * Radiative transfer in a layer by doubling (van de Hulst; the matrix form of Plass, Kattawar & Catchings 1973, from
 * memory). The thin layer to start from is the implicit midpoint rule of μ dI/dz = −(a + s)I + ½∫pI dμ', which is a
 * Cayley transform: T ± R = (E + G±/2)⁻¹(E − G±/2), G± = Δz·M⁻¹(a + s − ½(on ± back)W). It loses no light.
 */
export function layerOf(medium: Medium, thickness: number, streams: Streams): Layer {
  const extinction = (medium.absorption + medium.scattering) * thickness;
  const flattest = Math.min(...streams.cosines);
  const doublings = Math.max(0, Math.ceil(Math.log2(extinction / (FIRST_DEPTH * flattest))));
  let layer = thinLayer(medium, thickness / 2 ** doublings, streams);
  for (let i = 0; i < doublings; i++) layer = doubled(layer);
  return layer;
}

function thinLayer({ absorption, scattering, on, back }: Medium, depth: number, streams: Streams): Layer {
  const { cosines, weights } = streams;
  const size = cosines.length;
  const unit = identity(size);
  const cayley = (sign: number): Square => {
    const half = unit.map((one, at) => {
      const [i, j] = [Math.floor(at / size), at % size];
      const scattered = ((on[at] + sign * back[at]) * weights[j]) / 2;
      return ((depth / 2) * (one * (absorption + scattering) - scattered)) / cosines[i];
    });
    return solve(plus(unit, half), plus(unit, half, -1));
  };
  const even = cayley(1);
  const odd = cayley(-1);
  const mean = (sign: number) => even.map((value, at) => (value + sign * odd[at]) / 2);
  return { transmitted: mean(1), reflected: mean(-1) };
}

/** A layer on its like: T₂ = T(E − R²)⁻¹T, R₂ = R + T(E − R²)⁻¹RT. */
function doubled({ reflected, transmitted }: Layer): Layer {
  const size = Math.round(Math.sqrt(reflected.length));
  const gap = plus(identity(size), times(reflected, reflected), -1);
  const through = solve(gap, transmitted);
  return {
    transmitted: times(transmitted, through),
    reflected: plus(reflected, times(transmitted, times(reflected, through))),
  };
}
