import type { Work } from "../core/createWork.js";
import { sum } from "../core/sum.js";
import type { ForwardModel } from "../forward/forwardModel.js";
import {
  type BorderedBlocks,
  factoriseBlocks,
  logDeterminant,
  whiten,
  whitenTransposed,
} from "../numeric/linear/borderedBlocks.js";
import { dot } from "../numeric/linear/dot.js";
import type { Film } from "./film.js";
import { addSlopes, filmResponse } from "./filmResponse.js";
import type { Observation } from "./operators/observation.js";
import type { Unknown } from "./unknown.js";

/** Everything that is not known beforehand: what it moves, and the films that show it. */
export interface Scope {
  /** At full strength, tied to nothing. */
  readonly model: ForwardModel;
  /** Likeliest factor on every toner beforehand. */
  readonly strengths: Float64Array;
  readonly unknowns: readonly Unknown[];
  readonly films: readonly Film[];
}

/** The likeliest world given what was seen, and the normal law around it (Laplace), in the space of the data. */
export interface Posterior {
  readonly u: Float64Array;
  /** ∂(seen)/∂u in units of sd: row r of unknown x at `[x·rows + r]`. */
  readonly slopes: Float64Array;
  readonly rows: number;
  /** Of J·Jᵀ + I, the covariance of what was seen, beforehand: a block for each geometry. */
  readonly factor: BorderedBlocks;
  readonly residual: Float64Array;
  /** Σr² + Σu². */
  readonly chiSquare: number;
  /** −½(χ² + ln det(J·Jᵀ + I)): ln of the evidence but for the scale of what was seen. */
  readonly logEvidence: number;
  readonly converged: boolean;
}

/** Limits of the iteration in `believe`. */
export interface BelieveEffort {
  readonly steps: number;
  readonly halvings: number;
}

export const BELIEVE_EFFORT: BelieveEffort = Object.freeze({ steps: 20, halvings: 8 });

/** Where `believe` begins, how far it goes, and what it counts its looks against: one is taken whatever is left. */
export interface BelieveOptions {
  readonly start?: Float64Array | undefined;
  readonly effort?: BelieveEffort | undefined;
  readonly work?: Work | undefined;
}

/** Converged once a step lowers Σr² + Σu² by less than this. */
const ARRIVED = 1e-3;

/**
 * Gauss–Newton for the likeliest u, standard normal beforehand: u ← Jᵀ(J·Jᵀ + I)⁻¹(r + J·u), halved until it lowers
 * Σr² + Σu²; as many equations as were seen, however many unknowns there are. Source: Gelman et al. 2013, ch. 4 and 13;
 * Tarantola 2005, ch. 3.
 */
export function believe(
  scope: Scope,
  observations: readonly Observation[],
  { start, effort = BELIEVE_EFFORT, work }: BelieveOptions = {},
): Posterior {
  let u = start ?? new Float64Array(scope.unknowns.length);
  let at = lookAt(scope, observations, u);
  let linear = at.linearise();
  work?.spend(at.steps + linear.steps);
  let cost = dot(at.residual, at.residual) + dot(u, u);
  let converged = false;
  const rows = rowsOf(observations);
  for (let step = 0; step < effort.steps && !converged && !work?.isSpent(); step++) {
    const wanted = fullStep({ ...linear, rows, residual: at.residual }, u);
    let share = 1;
    let next = at;
    let nextCost = Number.POSITIVE_INFINITY;
    let moved = u;
    for (let halving = 0; halving <= effort.halvings; halving++, share /= 2) {
      moved = u.map((value, x) => value + share * (wanted[x] - value));
      next = lookAt(scope, observations, moved);
      nextCost = dot(next.residual, next.residual) + dot(moved, moved);
      work?.spend(next.steps);
      if (nextCost <= cost || work?.isSpent()) break;
    }
    converged = Math.abs(cost - nextCost) < ARRIVED;
    if (!(nextCost <= cost)) break;
    u = moved;
    at = next;
    cost = nextCost;
    linear = at.linearise();
    work?.spend(linear.steps);
  }
  const { slopes, factor } = linear;
  const logEvidence = -(cost + logDeterminant(factor)) / 2;
  return { u, residual: at.residual, slopes, rows, factor, chiSquare: cost, logEvidence, converged };
}

const rowsOf = (observations: readonly Observation[]): number => sum(observations.map(({ rows }) => rows));

interface Look {
  readonly residual: Float64Array;
  /** Of work (see `createWork`). */
  readonly steps: number;
  /** Slopes there and the factor of the covariance of what was seen: most of the work. */
  linearise(): Pick<Posterior, "slopes" | "factor"> & { readonly steps: number };
}

function lookAt(
  { model, strengths, unknowns, films }: Scope,
  observations: readonly Observation[],
  u: Float64Array,
): Look {
  const { size } = model.coefficients;
  const bands = model.set.grid.count;
  const rows = rowsOf(observations);
  const residual = new Float64Array(rows);
  const rowsByGeometry = model.geometries.map(() => 0);
  const seen = films.map((film) => ({
    film,
    response: filmResponse(model, strengths, { unknowns, u }, film),
    /** What looks at the film, with its name for it. */
    by: [] as (readonly [number, (typeof looks)[number]])[],
  }));
  let row = 0;
  const looks = observations.map(({ films: looked, own, rows: count, geometry, look }) => {
    const places = own.map((one) => unknowns.indexOf(one));
    const sight = look(
      looked.map((film) => seen[film].response.reflectance),
      places.map((x) => u[x]),
    );
    residual.set(sight.residual, row);
    const first = row;
    row += count;
    rowsByGeometry[geometry] += count;
    return { films: looked, places, geometry, first, rows: count, sight };
  });
  for (const one of looks) for (const [f, film] of one.films.entries()) seen[film].by.push([f, one]);
  const linearise = () => {
    const slopes = new Float64Array(rows * unknowns.length);
    const spans = new Int32Array(2 * unknowns.length);
    const touch = (x: number, from: number, to: number) => {
      spans[2 * x] = spans[2 * x + 1] === 0 ? from : Math.min(spans[2 * x], from);
      spans[2 * x + 1] = Math.max(spans[2 * x + 1], to);
    };
    for (const { places, first, rows: count, sight } of looks) {
      for (const [i, x] of places.entries()) {
        slopes.set(sight.byOwn[i], x * rows + first);
        touch(x, first, first + count);
      }
    }
    const change = new Float64Array(size);
    const rowsOfBand = Math.min(1, rows / (films.length * size));
    let steps = 0;
    for (const { film, response, by } of seen) {
      if (by.length === 0) continue;
      unknowns.forEach((unknown, x) => {
        const span = addSlopes(response, unknown, film, change, 0);
        const width = span.to - span.from;
        const within = Math.min(width, bands);
        steps += STEPS_OF_UNKNOWN + 3 * width + (width * within * rowsOfBand ** 2 * films.length) / 2;
        for (const [f, { sight, geometry, first, rows: count }] of by) {
          if (span.to <= geometry * bands || span.from >= (geometry + 1) * bands) continue;
          sight.carry(f, change, span, slopes, x * rows + first);
          touch(x, first, first + count);
        }
        change.fill(0, span.from, span.to);
      });
    }
    const factor = factoriseBlocks({ values: slopes, spans }, rowsByGeometry);
    return { slopes, factor, steps: steps + factor.steps };
  };
  return { residual, steps: seen.length * size * STEPS_OF_BAND, linearise };
}

/** Steps of work that one unknown takes to be asked for its part in a film. */
const STEPS_OF_UNKNOWN = 60;

/** Steps of work that one band of a film takes: roots and powers of a handful of toners. */
const STEPS_OF_BAND = 150;

/** Jᵀ(J·Jᵀ + I)⁻¹(r + J·u). */
export function fullStep(
  { residual, slopes, rows, factor }: Pick<Posterior, "residual" | "slopes" | "rows" | "factor">,
  u: Float64Array,
): Float64Array {
  const right = residual.slice();
  const { spans } = factor;
  for (let x = 0; x < u.length; x++) {
    if (u[x] === 0) continue;
    for (let r = spans[2 * x]; r < spans[2 * x + 1]; r++) right[r] += slopes[x * rows + r] * u[x];
  }
  whiten(factor, right, 1);
  whitenTransposed(factor, right, 1);
  return u.map((_, x) => {
    let pull = 0;
    for (let r = spans[2 * x]; r < spans[2 * x + 1]; r++) pull += slopes[x * rows + r] * right[r];
    return pull;
  });
}
