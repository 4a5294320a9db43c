import { ciede2000 } from "../colorimetry/ciede2000.js";
import { deltaE00Metric } from "../colorimetry/deltaE00Metric.js";
import { type Lab, labFromXyz, type Matrix3 } from "../colorimetry/lab.js";
import { type Xyz, xyzFromReflectance } from "../colorimetry/xyz.js";
import type { ForwardModel } from "../forward/forwardModel.js";
import { alignReadings } from "../scene/alignReadings.js";
import type { Geometry } from "../surface/geometry.js";
import { allowedDeltaE00 } from "../tolerance/tolerance.js";
import type { CorrectionObjective } from "./correctionObjective.js";
import type { CheckedJob } from "./job.js";
import { angleShares } from "./targetAngles.js";

/** One colour to reach: a target seen at one geometry under one light. */
export interface Aim {
  readonly target: number;
  readonly geometry: number;
  readonly light: number;
  /** Where the model keeps this colour: 3·(geometry·lights + light). */
  readonly place: number;
  /** Share in the objective; all aims together weigh 1. */
  readonly weight: number;
  readonly xyz: Xyz;
  readonly lab: Lab;
  /**
   * Index of this colour among those drawn from the belief, where the target's spectrum is inferred; null where it
   * was read.
   */
  readonly drawnAt: number | null;
  /** Rows M with ΔE00 ≈ ‖M·ΔLab‖ near this colour. */
  readonly metric: Matrix3;
  readonly allowed: number;
  /** What would be allowed if the target were a blend. */
  readonly allowedAsBlend: number;
  /** In a minimax: whether the whole difference counts. Of a blend only what exceeds its allowance does. */
  readonly isEdge: boolean;
}

/** A target's reflectance at one geometry, for the start and for the tie-break; weights add up to 1. */
export interface SpectralAim {
  readonly target: number;
  readonly geometry: number;
  readonly weight: number;
  readonly reflectance: Float64Array;
  /** Inferred by the belief, not read. */
  readonly isInferred: boolean;
}

export interface Goal {
  readonly objective: CorrectionObjective;
  readonly aims: readonly Aim[];
  readonly spectra: readonly SpectralAim[];
}

/** What is believed of a target that was not read at every geometry it was seen at. */
export interface InferredTarget {
  /** Over all geometries of the model. */
  readonly reflectance: Float64Array;
  /** Its place among the panels of the belief. */
  readonly panel: number;
}

/**
 * What the readings of the targets ask for, in the layout of the model, at the geometries `ofTargets` of each; where one was
 * seen, but not read, what is inferred.
 */
export function createGoal(
  job: CheckedJob,
  model: ForwardModel,
  ofTargets: readonly (readonly Geometry[])[],
  inferred: ReadonlyMap<number, InferredTarget> = new Map(),
): Goal {
  const { geometries, lights, set } = model;
  const hasEdges = job.targets.some(({ role, weight }) => role === "edge" && weight > 0);
  const heaviest = Math.max(...lights.map(({ weight }) => weight));
  const aims: Aim[] = [];
  const spectra: SpectralAim[] = [];
  job.targets.forEach(({ readings, role, weight, angles }, target) => {
    const { count } = set.grid;
    const guess = inferred.get(target);
    const seen = geometries.filter((geometry) => ofTargets[target].includes(geometry));
    const read = seen.filter((geometry) => readings.some((reading) => reading.geometry === geometry));
    const aligned = alignReadings(readings, read, set.grid, `targets[${target}].readings`);
    const shares = angleShares(angles, seen, allowedDeltaE00(job.tolerance, role, 1));
    seen.forEach((name, s) => {
      // A quotient where all angles count alike, so that rounding is the same as without angles.
      const ofAngle = angles ? weight * shares[s].weight : weight / seen.length;
      const { factor } = shares[s];
      const geometry = geometries.indexOf(name);
      const place = read.indexOf(name);
      const panel = place < 0 && guess ? guess.panel : null;
      const reflectance =
        place < 0 && guess
          ? guess.reflectance.subarray(geometry * count, (geometry + 1) * count)
          : aligned.subarray(place * count, (place + 1) * count);
      spectra.push({
        target,
        geometry,
        weight: ofAngle,
        reflectance,
        isInferred: panel !== null,
      });
      lights.forEach(({ weight: lightWeight, tristimulus }, light) => {
        const xyz = xyzFromReflectance(reflectance, tristimulus);
        const lab = labFromXyz(xyz, tristimulus.white);
        // A target of weight 0 is reported but decides nothing, like a light of weight 0.
        const share = weight > 0 ? lightWeight / heaviest : 0;
        const place = 3 * (geometry * lights.length + light);
        aims.push({
          target,
          geometry,
          light,
          place,
          drawnAt: panel === null ? null : place + 3 * geometries.length * lights.length * (1 + panel),
          weight: ofAngle * lightWeight,
          xyz,
          lab,
          metric: deltaE00Metric(lab),
          isEdge: role === "edge" || !hasEdges,
          allowed: factor * allowedDeltaE00(job.tolerance, role, share),
          allowedAsBlend: factor * allowedDeltaE00(job.tolerance, "blend", share),
        });
      });
    });
  });
  return { objective: job.objective, aims: sharing(aims), spectra: sharing(spectra) };
}

/** The same entries with weights that add up to 1. */
function sharing<T extends { readonly weight: number }>(entries: readonly T[]): readonly T[] {
  const total = entries.reduce((sum, { weight }) => sum + weight, 0);
  return entries.map((entry) => ({ ...entry, weight: entry.weight / total }));
}

/** True CIEDE2000 of each aim for colours laid out like an evaluation's `lab`. */
export function differences(goal: Goal, lab: ArrayLike<number>): readonly number[] {
  return goal.aims.map((aim) => ciede2000(aim.lab, labAt(lab, aim.place)));
}

/** √Σ w ΔE00² over all aims. */
export function weightedDifference(goal: Goal, lab: ArrayLike<number>): number {
  let sum = 0;
  for (const aim of goal.aims) sum += aim.weight * ciede2000(aim.lab, labAt(lab, aim.place)) ** 2;
  return Math.sqrt(sum);
}

/**
 * The worst of ΔE00·(strictest allowance ÷ own allowance) over the edges and over the blends that are beyond theirs: what an edge
 * under the heaviest light would show.
 */
function worstDifference(goal: Goal, lab: ArrayLike<number>): number {
  return worstOf(goal, differences(goal, lab));
}

/** The same from the difference of each aim. */
export function worstOf({ aims }: Goal, missed: ArrayLike<number>): number {
  const strictest = strictestAllowance(aims);
  let worst = 0;
  for (let i = 0; i < aims.length; i++) {
    const { allowed, isEdge } = aims[i];
    if (isEdge || missed[i] > allowed) worst = Math.max(worst, (missed[i] * strictest) / allowed);
  }
  return worst;
}

export function strictestAllowance(aims: readonly Aim[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (const { allowed } of aims) least = Math.min(least, allowed);
  return least;
}

/** The colour part of the objective, in ΔE00. */
export function colourScore(goal: Goal, lab: ArrayLike<number>): number {
  return goal.objective === "minimax" ? worstDifference(goal, lab) : weightedDifference(goal, lab);
}

/** Whether every aim lies within what its role and light allow. */
export function isWithin(goal: Goal, lab: ArrayLike<number>): boolean {
  return goal.aims.every((aim) => ciede2000(aim.lab, labAt(lab, aim.place)) <= aim.allowed);
}

/** The colour of an aim: as read, or as drawn from the belief. */
export function labOfAim({ lab, drawnAt }: Aim, drawn: ArrayLike<number>): Lab {
  return drawnAt === null ? lab : labAt(drawn, drawnAt);
}

export function labAt(lab: ArrayLike<number>, place: number): Lab {
  return [lab[place], lab[place + 1], lab[place + 2]];
}
