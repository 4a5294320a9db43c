import { identity, plus, type Square, solve, times } from "../simulator/square.js";
import type { Directions } from "./directions.js";
import type { FlakeOptics } from "./flakes.js";

/** A layer of paint: pigment that absorbs and scatters evenly, per unit of build, and flakes of any kinds. */
export interface PaintLayer {
  readonly absorption: number;
  readonly scattering: number;
  readonly flakes: readonly FlakeOptics[];
  readonly build: number;
}

interface Slab {
  readonly reflected: Square;
  readonly transmitted: Square;
}

/** The first slab of the doubling is this deep, in mean free paths along the direction that is met most. */
const FIRST_DEPTH = 0.4;

/**
 * Reflectance factors, π × radiance ÷ irradiance, at the views: layers (the upper first) over a matt ground under a
 * smooth boundary, lit from 45°. Discrete ordinates by azimuthal modes, each by doubling and adding (van de Hulst;
 * Plass, Kattawar & Catchings 1973, from memory). What the boundary mirrors outside is not counted.
 */
export function reflectanceFactors(
  layers: readonly PaintLayer[],
  ground: number,
  directions: Directions,
  modes: number,
  firstMode = 0,
): readonly number[] {
  const { index, mirrored, views } = directions;
  const factors = views.map(() => 0);
  for (let mode = firstMode; mode < modes; mode++) {
    const up = upwards(stackOf(layers, ground, mode, directions), directions);
    views.forEach(({ at, onLightSide }, v) => {
      const sign = onLightSide ? (-1) ** mode : 1;
      factors[v] += (Math.PI * (mode === 0 ? 1 : 2) * sign * (1 - mirrored[at]) * up[at]) / index ** 2;
    });
  }
  return factors;
}

/** What the layers on their ground send up of a mode, from below the boundary: from direction j (column) to i. */
export function stackOf(
  layers: readonly PaintLayer[],
  ground: number,
  mode: number,
  directions: Directions,
): Square {
  return [...layers]
    .reverse()
    .reduce(
      (below, layer) => over(slabOf(layer, mode, directions), below),
      mattGround(mode === 0 ? ground : 0, directions),
    );
}

/** Radiances under the boundary of a beam of unit irradiance, of which a mode has 1/(2π), all in one direction. */
export function upwards(below: Square, { cosines, weights, mirrored, beam }: Directions): Float64Array {
  const size = cosines.length;
  const entering = beam.enters / (2 * Math.PI * cosines[beam.at] * weights[beam.at]);
  const first = Float64Array.from(cosines, (_, i) => below[i * size + beam.at] * entering);
  const echoed = below.map((value, at) => value * mirrored[at % size]);
  return solve(plus(identity(size), echoed, -1), first);
}

function mattGround(ground: number, { cosines, weights }: Directions): Square {
  const size = cosines.length;
  return Float64Array.from(
    { length: size * size },
    (_, at) => 2 * ground * weights[at % size] * cosines[at % size],
  );
}

/** What is sent up by a slab that lies on something: R + T·B(E − RB)⁻¹·T. */
function over({ reflected, transmitted }: Slab, below: Square): Square {
  const gap = plus(identity(Math.sqrt(below.length)), times(reflected, below), -1);
  return plus(reflected, times(transmitted, times(below, solve(gap, transmitted))));
}

function slabOf(layer: PaintLayer, mode: number, directions: Directions): Slab {
  const extinction = directions.cosines.map((_, i) =>
    layer.flakes.reduce((sum, { extinction }) => sum + extinction[i], layer.absorption + layer.scattering),
  );
  const depth = Math.max(...extinction) * layer.build;
  const doublings = Math.max(0, Math.ceil(Math.log2(depth / FIRST_DEPTH)));
  let slab = firstSlab(changes(layer, mode, directions), layer.build / 2 ** doublings);
  for (let i = 0; i < doublings; i++) slab = doubled(slab);
  return slab;

  /** Per unit of build, of the sum of both senses from their difference and the other way round: (ε − p₊ ± p₋)/μ. */
  function changes({ scattering, flakes }: PaintLayer, at: number, { cosines, weights }: Directions) {
    const size = cosines.length;
    const even = at === 0 ? scattering / 2 : 0;
    const side = (sign: number): Square =>
      Float64Array.from({ length: size * size }, (_, place) => {
        const [i, j] = [Math.floor(place / size), place % size];
        let sent = even * weights[j] * (1 + sign);
        for (const { modes } of flakes) sent += modes[at].on[place] + sign * modes[at].back[place];
        return ((i === j ? extinction[i] : 0) - sent) / cosines[i];
      });
    return { sum: side(1), difference: side(-1) };
  }
}

/**
 * A thin slab by Padé's [2/2] of the exponential, which is a Cayley transform of G′ = (E + h²G₋G₊/12)⁻¹G₋ and its
 * counterpart: T ± R = (E + hG′±/2)⁻¹(E − hG′±/2). Where nothing absorbs it loses nothing.
 */
function firstSlab({ sum, difference }: { sum: Square; difference: Square }, depth: number): Slab {
  const unit = identity(Math.sqrt(sum.length));
  const corrected = (one: Square, other: Square) =>
    solve(plus(unit, times(one, other), depth ** 2 / 12), one);
  const cayley = (change: Square) => solve(plus(unit, change, depth / 2), plus(unit, change, -depth / 2));
  const even = cayley(corrected(sum, difference));
  const odd = cayley(corrected(difference, sum));
  return {
    transmitted: even.map((value, at) => (value + odd[at]) / 2),
    reflected: even.map((value, at) => (value - odd[at]) / 2),
  };
}

/** A slab on its like: T₂ = T(E − R²)⁻¹T, R₂ = R + T(E − R²)⁻¹RT. */
function doubled({ reflected, transmitted }: Slab): Slab {
  const gap = plus(identity(Math.sqrt(reflected.length)), times(reflected, reflected), -1);
  const through = solve(gap, transmitted);
  return {
    transmitted: times(transmitted, through),
    reflected: plus(reflected, times(transmitted, times(reflected, through))),
  };
}
