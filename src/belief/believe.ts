import type { Work } from "../core/createWork.js";
import type { ForwardModel } from "../forward/forwardModel.js";
import { addProduct } from "../numeric/linear/addProduct.js";
import { dot } from "../numeric/linear/dot.js";
import { choleskyInPlace, solveLower, solveLowerTransposed } from "../numeric/linear/triangularSolve.js";
import type { Film } from "./film.js";
import { addSlopes, filmResponse } from "./filmResponse.js";
import type { Observation, Sight } from "./operators/observation.js";
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
  /** Lower triangle L of J·Jᵀ + I = L·Lᵀ: the covariance of what was seen, beforehand. */
  readonly factor: Float64Array;
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

export const BELIEVE_EFFORT: BelieveEffort = Object.freeze({ steps: 12, halvings: 8 });

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
  const count = scope.unknowns.length;
  let u = start ?? new Float64Array(count);
  let at = lookAt(scope, observations, u);
  work?.spend(at.steps);
  let cost = dot(at.residual, at.residual) + dot(u, u);
  let converged = false;
  let factor = dataCovariance(at);
  for (let step = 0; step < effort.steps && !converged && !work?.isSpent(); step++) {
    const wanted = fullStep(at, factor, u);
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
    factor = dataCovariance(at);
  }
  let logDeterminant = 0;
  const { rows } = at;
  for (let r = 0; r < rows; r++) logDeterminant += 2 * Math.log(factor[r * rows + r]);
  return {
    u,
    residual: at.residual,
    slopes: at.slopes,
    rows,
    factor,
    chiSquare: cost,
    logEvidence: -(cost + logDeterminant) / 2,
    converged,
  };
}

interface Look {
  readonly residual: Float64Array;
  readonly slopes: Float64Array;
  readonly rows: number;
  /** Of work (see `createWork`), with the factor of the data's covariance. */
  readonly steps: number;
}

function lookAt(
  { model, strengths, unknowns, films }: Scope,
  observations: readonly Observation[],
  u: Float64Array,
): Look {
  const { size } = model.coefficients;
  const rows = observations.reduce((sum, one) => sum + one.rows, 0);
  const residual = new Float64Array(rows);
  const slopes = new Float64Array(rows * unknowns.length);
  const seen = films.map((film) => ({
    film,
    response: filmResponse(model, strengths, { unknowns, u }, film),
    /** What looks at the film: the sight, its name for the film, its first row. */
    by: [] as (readonly [Sight, number, number])[],
  }));
  let row = 0;
  for (const { films: looked, own, rows: count, look } of observations) {
    const places = own.map((one) => unknowns.indexOf(one));
    const sight = look(
      looked.map((film) => seen[film].response.reflectance),
      places.map((x) => u[x]),
    );
    residual.set(sight.residual, row);
    for (const [f, film] of looked.entries()) seen[film].by.push([sight, f, row]);
    for (const [i, x] of places.entries()) slopes.set(sight.byOwn[i], x * rows + row);
    row += count;
  }
  const change = new Float64Array(size);
  const rowsOfBand = Math.min(1, rows / (films.length * size));
  let steps = rows ** 3 / 6 + seen.length * size * STEPS_OF_BAND;
  for (const { film, response, by } of seen) {
    if (by.length === 0) continue;
    unknowns.forEach((unknown, x) => {
      const span = addSlopes(response, unknown, film, change, 0);
      const touched = (span.to - span.from) * rowsOfBand;
      steps += STEPS_OF_UNKNOWN + 3 * (span.to - span.from) + (touched * touched * films.length) / 2;
      for (const [sight, f, first] of by) sight.carry(f, change, span, slopes, x * rows + first);
      change.fill(0, span.from, span.to);
    });
  }
  return { residual, slopes, rows, steps };
}

/** Steps of work that one unknown takes to be asked for its part in a film. */
const STEPS_OF_UNKNOWN = 60;

/** Steps of work that one band of a film takes: roots and powers of a handful of toners. */
const STEPS_OF_BAND = 150;

/** Lower factor of J·Jᵀ + I. */
function dataCovariance({ slopes, rows }: Look): Float64Array {
  const covariance = new Float64Array(rows * rows);
  const byUnknown = { values: slopes, width: rows };
  addProduct(byUnknown, byUnknown, covariance);
  for (let i = 0; i < rows; i++) covariance[i * rows + i] += 1;
  choleskyInPlace(covariance, 0, rows);
  return covariance;
}

/** Jᵀ(J·Jᵀ + I)⁻¹(r + J·u). */
export function fullStep(
  { residual, slopes, rows }: Pick<Look, "residual" | "slopes" | "rows">,
  factor: Float64Array,
  u: Float64Array,
): Float64Array {
  const right = residual.slice();
  for (let x = 0; x < u.length; x++) {
    if (u[x] === 0) continue;
    for (let r = 0; r < rows; r++) right[r] += slopes[x * rows + r] * u[x];
  }
  solveLower(factor, rows, right, 0, 1);
  solveLowerTransposed(factor, rows, right, 0, 1);
  return u.map((_, x) => {
    let sum = 0;
    for (let r = 0; r < rows; r++) sum += slopes[x * rows + r] * right[r];
    return sum;
  });
}
