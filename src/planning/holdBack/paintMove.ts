import { ciede2000 } from "../../colorimetry/ciede2000.js";
import type { Lab } from "../../colorimetry/lab.js";
import type { Work } from "../../core/createWork.js";
import type { ForwardModel } from "../../forward/forwardModel.js";
import { after } from "../../problem/after.js";
import { createBench } from "../../problem/bench.js";
import { createGoal, isWithin } from "../../problem/goal.js";
import { checkJob } from "../../problem/job.js";
import type { Limits } from "../../problem/limits.js";
import { findMix } from "../../search/findMix.js";
import type { Reading } from "../../surface/reading.js";
import { allowanceUsed } from "../../tolerance/blendAllowance.js";
import type { TargetRole, Tolerance } from "../../tolerance/tolerance.js";
import { gramsById } from "../../toners/pot.js";
import { paintColours, paintReflectance } from "./paintColours.js";
import type { CheckedPlanJob } from "./planJob.js";

/** A colour to bring paint to, and what may be off. */
export interface WantedColour {
  readonly name: string;
  readonly role: TargetRole;
  readonly share: number;
  readonly reflectance: Float64Array;
}

/** Additions that bring one paint to other colours, and how near it then is to each: the worst light and geometry. */
export interface PaintMove {
  readonly additions: Float64Array;
  readonly misses: readonly Miss[];
}

/** Difference of a paint from a colour, in ΔE00 and as a share of what is allowed. */
export interface Miss {
  readonly deltaE00: number;
  readonly allowanceUsed: number;
}

/** Of the work left one correction takes no more than this share. */
const MOVE_SHARE = 0.1;

/** What paint may be moved with, and the work that this may take. */
export interface Moving {
  readonly job: Bench;
  readonly limits: Limits;
  readonly work: Work;
}

type Bench = Pick<CheckedPlanJob, "toners" | "viewing" | "tolerance" | "blendAllowance">;

/**
 * What to pour into `pot` to bring it to the colours, both as the model has them: what it misses of paint drops out, and
 * nothing of it is in doubt. Blends are tried with the widest part of their allowance and, where they then fail for another,
 * once more with the strictest.
 */
export function paintMove(
  model: ForwardModel,
  pot: Float64Array,
  wanted: readonly WantedColour[],
  { job, limits, work }: Moving,
): PaintMove {
  const { lightness, chroma, hue } = job.blendAllowance;
  const within = (blendDeltaE00: number) =>
    moveWithin(model, pot, wanted, { job, limits, work, tolerance: { ...job.tolerance, blendDeltaE00 } });
  const widely = within(Math.max(lightness, chroma, hue));
  if (widely.misses.every(({ allowanceUsed: used }) => used <= 1)) return widely;
  return within(Math.min(lightness, chroma, hue));
}

function moveWithin(
  model: ForwardModel,
  pot: Float64Array,
  wanted: readonly WantedColour[],
  { job, limits, work, tolerance }: Moving & { readonly tolerance: Tolerance },
): PaintMove {
  const { set, geometries } = model;
  const targets = wanted.map(({ name, role, share, reflectance }) => ({
    name,
    role,
    weight: share,
    readings: readingsOf(model, reflectance),
  }));
  const card = { readings: readingsOf(model, paintReflectance(model, pot)) };
  const { viewing } = job;
  const move = checkJob({
    toners: set,
    viewing,
    pot: gramsById(pot, set.toners),
    card,
    targets,
    limits,
    tolerance,
  });
  const goal = createGoal(
    move,
    model,
    targets.map(() => geometries),
  );
  const risk = new Float64Array(pot.length ** 2);
  const problem = { model, goal, bench: createBench(move), risk, work: work.share(MOVE_SHARE) };
  const nothing = new Float64Array(pot.length);
  const { picked } = isWithin(goal, after(problem, nothing).lab) ? { picked: undefined } : findMix(problem);
  const additions = picked?.additions ?? nothing;
  const mixed = pot.map((grams, j) => grams + additions[j]);
  const paint = paintColours(model, paintReflectance(model, mixed));
  return {
    additions,
    misses: wanted.map(({ role, reflectance }) =>
      missOf(model, { role, panel: paintColours(model, reflectance) }, paint, job),
    ),
  };
}

/** How far paint is off a panel, both as colours of the model, under the lights that count. */
export function missOf(
  model: ForwardModel,
  { role, panel }: { readonly role: TargetRole; readonly panel: readonly Lab[] },
  paint: readonly Lab[],
  { tolerance, blendAllowance: blend }: Pick<Bench, "tolerance" | "blendAllowance">,
): Miss {
  const heaviest = Math.max(...model.lights.map(({ weight }) => weight));
  const shares = panel.map((_, c) => Math.sqrt(model.lights[c % model.lights.length].weight / heaviest));
  const worst = (of: (c: number) => number) => Math.max(...panel.map((_, c) => (shares[c] > 0 ? of(c) : 0)));
  return {
    deltaE00: worst((c) => ciede2000(panel[c], paint[c])),
    allowanceUsed: worst(
      (c) => shares[c] * allowanceUsed({ role, panel: panel[c] }, paint[c], { tolerance, blend }),
    ),
  };
}

function readingsOf(model: ForwardModel, reflectance: Float64Array): readonly Reading[] {
  const { grid } = model.set;
  return model.geometries.map((geometry, g) => ({
    geometry,
    grid,
    reflectance: reflectance.slice(g * grid.count, (g + 1) * grid.count),
  }));
}
