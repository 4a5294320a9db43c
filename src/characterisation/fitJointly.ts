import type { Work } from "../core/createWork.js";
import { factoriseArrow, solveArrow } from "../numeric/linear/blockArrow.js";
import { type Linearisation, linearise } from "./linearise.js";
import type { Observations } from "./observations.js";
import type { Point, Unknowns } from "./unknowns.js";

export interface JointFit {
  readonly point: Point;
  readonly at: Linearisation;
  readonly iterations: number;
  readonly stopReason: "step" | "cost" | "iteration-limit" | "stalled" | "stopped";
}

export interface FitLimits {
  readonly maxIterations: number;
  /** Of the test "cost"; 1e−6 unless given. */
  readonly costTolerance?: number | undefined;
  /** Every iteration counts here; "stopped" where none is left. */
  readonly work: Work;
}

/** ln K and ln S stay within e^±MOST_LOG: beyond it nothing measurable changes. */
const MOST_LOG = 25;
/** No ln moves further than this in one step. */
const LONGEST_STEP = 2;
const STEP_TOLERANCE = 1e-10;
const COST_TOLERANCE = 1e-6;
/** Curvature below this (an sd of ln above 1e3) counts as none when the damping is scaled. */
const LEAST_CURVATURE = 1e-6;

/**
 * Levenberg–Marquardt on ln K, ln S, ln thickness, ln shares and surface constants all at once. Every step is one
 * block-arrow Cholesky: given the border, the bands are small problems of their own. "step": an undamped step moves
 * no unknown by more than 1e−10; "cost": it lowers the cost by no more than costTolerance of it.
 * Source: Marquardt 1963; Nielsen 1999 for the damping; Triggs et al. 2000 §6 for the Schur complement.
 */
export function fitJointly(
  observations: Observations,
  unknowns: Unknowns,
  start: Point,
  { maxIterations, costTolerance = COST_TOLERANCE, work }: FitLimits,
  onIteration: (iteration: number, cost: number) => void = () => {},
): JointFit {
  let point = start;
  let at = linearise(observations, unknowns, point);
  let damping = 1e-3;
  let growth = 2;
  const scale = new Float64Array(at.gradient.length).fill(LEAST_CURVATURE);
  const steps = iterationSteps(observations, unknowns);
  for (let iterations = 0; ; iterations++) {
    onIteration(iterations, at.cost);
    if (iterations >= maxIterations) return { point, at, iterations, stopReason: "iteration-limit" };
    if (work.isSpent()) return { point, at, iterations, stopReason: "stopped" };
    work.spend(steps);
    raiseScale(scale, at);
    const found = dampedStep(at, scale, damping);
    const trial = found && moved(point, found.step, unknowns);
    const there = trial && linearise(observations, unknowns, trial);
    const { predicted = 0, longest = 1 } = found ?? {};
    const actual = there ? at.cost - there.cost : Number.NaN;
    const gain = actual / predicted;
    if (trial && there && actual >= 0 && gain > 1e-4) {
      const isSmall = actual <= costTolerance * at.cost && damping < 1e-2;
      point = trial;
      at = there;
      damping = Math.max(1e-15, damping * Math.max(1 / 10, 1 - (2 * gain - 1) ** 3));
      growth = 2;
      if (isSmall) return { point, at, iterations: iterations + 1, stopReason: "cost" };
      if (longest <= STEP_TOLERANCE) return { point, at, iterations: iterations + 1, stopReason: "step" };
    } else {
      if (found && predicted <= costTolerance * at.cost) return { point, at, iterations, stopReason: "cost" };
      if (longest <= STEP_TOLERANCE) return { point, at, iterations, stopReason: "step" };
      damping *= growth;
      growth *= 2;
      if (damping > 1e12) return { point, at, iterations, stopReason: "stalled" };
    }
  }
}

/** Steps of work of one iteration: every reading made linear, and the factor of the arrow. */
export function iterationSteps(
  { readings, grid, films }: Observations,
  { cells, size, border }: Unknowns,
): number {
  const inFilm = 2 * Math.max(...films.map(({ toners }) => toners.length)) + 4;
  const linear = readings.length * grid.count * (inFilm * inFilm + 100);
  return linear + cells * size * (size * (size / 3 + border) + (border * border) / 2) + border ** 3 / 6;
}

/** D of the damping: the largest diagonal of JᵀJ so far. */
function raiseScale(scale: Float64Array, { arrow }: Linearisation): void {
  const { blocks, size, border, diagonal, corner } = arrow;
  const rows = blocks * size;
  for (let i = 0; i < rows; i++) scale[i] = Math.max(scale[i], diagonal[i * size + (i % size)]);
  for (let p = 0; p < border; p++) scale[rows + p] = Math.max(scale[rows + p], corner[p * border + p]);
}

interface DampedStep {
  readonly step: Float64Array;
  /** What the linear model says it will save. */
  readonly predicted: number;
  readonly longest: number;
}

/** (JᵀJ + λD)p = −Jᵀr, shortened where it would move an unknown by more than LONGEST_STEP. */
function dampedStep(at: Linearisation, scale: Float64Array, damping: number): DampedStep | undefined {
  const factor = factoriseArrow(
    at.arrow,
    scale.map((value) => value * damping),
  );
  if (!factor) return undefined;
  const step = at.gradient.map((value) => -value);
  solveArrow(factor, step);
  let slope = 0;
  let damped = 0;
  let longest = 0;
  for (let i = 0; i < step.length; i++) {
    slope -= at.gradient[i] * step[i];
    damped += damping * scale[i] * step[i] * step[i];
    longest = Math.max(longest, Math.abs(step[i]));
  }
  const share = Math.min(1, LONGEST_STEP / longest);
  const predicted = share * slope - (share * share * (slope - damped)) / 2;
  return { step: step.map((value) => value * share), predicted, longest };
}

function moved({ local, border }: Point, step: Float64Array, { surface }: Unknowns): Point {
  const rows = local.length;
  const next = border.map((value, p) => value + step[rows + p]);
  for (const { place } of surface) next[place] = Math.min(0.9, Math.max(0, next[place]));
  return {
    local: local.map((value, i) => Math.min(MOST_LOG, Math.max(-MOST_LOG, value + step[i]))),
    border: next,
  };
}
