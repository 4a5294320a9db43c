import { ciede2000 } from "../../../src/colorimetry/ciede2000.js";
import { labFromXyz } from "../../../src/colorimetry/lab.js";
import { xyzFromReflectance } from "../../../src/colorimetry/xyz.js";
import { createEvaluation, evaluate } from "../../../src/forward/evaluate.js";
import { checkJob, type Job } from "../../../src/problem/job.js";
import { prepareProblem } from "../../../src/problem/problem.js";
import { trueRisk } from "../../../src/search/trueRisk.js";
import type { Grams } from "../../../src/toners/pot.js";

/** The best of all additions of at most so many toners. */
export interface Best {
  readonly pours: number;
  readonly score: number;
  readonly additions: Grams;
}

/**
 * How a job's mixes are ranked, from the definition in docs/theory.md: the model tied to the card, CIEDE2000 and the
 * doubt of the pours, nothing of the solver.
 */
export function scoreOf(job: Job, riskShare = 1): (additions: Grams) => number {
  const { targets, tolerance = {}, objective = "least-squares" } = job;
  const { model, bench, risk } = trueRisk(prepareProblem(checkJob(job)));
  const ids = model.set.toners.map(({ id }) => id);
  const weightOf = (target: (typeof targets)[number]) => target.weight ?? 1;
  const allTargets = targets.reduce((sum, target) => sum + weightOf(target), 0);
  const allLights = model.lights.reduce((sum, { weight }) => sum + weight, 0);
  const heaviest = Math.max(...model.lights.map(({ weight }) => weight));
  const hasEdges = targets.some(({ role = "edge" }) => role === "edge");
  const limitOf = { edge: tolerance.edgeDeltaE00 ?? 0.5, blend: tolerance.blendDeltaE00 ?? 1 };
  const aims = targets.flatMap((target) =>
    model.lights.map(({ weight, tristimulus }, light) => ({
      light,
      weight: (weightOf(target) / allTargets) * (weight / allLights),
      allowed: limitOf[target.role ?? "edge"] / Math.sqrt(weight / heaviest),
      isEdge: !hasEdges || (target.role ?? "edge") === "edge",
      lab: labFromXyz(xyzFromReflectance(target.readings[0].reflectance, tristimulus), tristimulus.white),
    })),
  );
  const strictest = Math.min(...aims.map(({ allowed }) => allowed));
  const at = createEvaluation(model);
  return (additions) => {
    const poured = ids.map((id) => additions[id] ?? 0);
    evaluate(
      model,
      poured.map((grams, j) => bench.pot[j] + grams),
      at,
    );
    let squares = 0;
    let worst = 0;
    for (const { light, weight, allowed, isEdge, lab } of aims) {
      const missed = ciede2000(lab, [at.lab[3 * light], at.lab[3 * light + 1], at.lab[3 * light + 2]]);
      squares += weight * missed * missed;
      if (isEdge || missed > allowed) worst = Math.max(worst, (missed * strictest) / allowed);
    }
    let spectral = 0;
    for (const target of targets) {
      const { reflectance } = target.readings[0];
      for (let b = 0; b < reflectance.length; b++) {
        const share = weightOf(target) / allTargets / reflectance.length;
        spectral += share * (100 * (at.reflectance[b] - reflectance[b])) ** 2;
      }
    }
    const doubt = risk.reduce(
      (sum, value, i) => sum + value * poured[Math.floor(i / ids.length)] * poured[i % ids.length],
      0,
    );
    return Math.sqrt(
      (objective === "minimax" ? worst * worst : squares) + 1e-4 * spectral + riskShare * doubt,
    );
  };
}

/** Every amount of every toner that stock, cup, scale, drops and least pour allow: whole steps, 0 left out. */
export function amountsOf({ toners, pot, limits = {} }: Job): readonly (readonly number[])[] {
  const inPot = Object.values(pot).reduce((sum, grams) => sum + grams, 0);
  const { scaleStepGrams = 0.1, minPourGrams = 0, stockGrams = {}, gramsPerDrop = {} } = limits;
  const room = (limits.potMaxGrams ?? 10 * inPot) - inPot;
  return toners.toners.map(({ id }) => {
    const step = gramsPerDrop[id] ?? scaleStepGrams;
    const least = id in gramsPerDrop ? 0 : minPourGrams;
    const most = Math.floor(Math.min(room, stockGrams[id] ?? Number.POSITIVE_INFINITY) / step + 1e-9);
    return Array.from({ length: Math.max(0, most) }, (_, i) => (i + 1) * step).filter(
      (grams) => grams >= least - 1e-9,
    );
  });
}

/** Number of mixes of at most `pours` toners, whether the cup holds them or not. */
export function countMixes(amounts: readonly (readonly number[])[], pours: number): number {
  const count = (from: number, left: number): number => {
    let sum = 1;
    if (left > 0)
      for (let j = from; j < amounts.length; j++) sum += amounts[j].length * count(j + 1, left - 1);
    return sum;
  };
  return count(0, pours);
}

/** Tries every mix, one after the other; the best of at most 0, 1, 2 … pours. */
export function tryAll(job: Job, riskShare = 1): readonly Best[] {
  const { toners, pot, limits = {} } = job;
  const score = scoreOf(job, riskShare);
  const amounts = amountsOf(job);
  const inPot = Object.values(pot).reduce((sum, grams) => sum + grams, 0);
  const room = (limits.potMaxGrams ?? 10 * inPot) - inPot;
  const pours = limits.maxPours ?? 4;
  const best: Best[] = Array.from({ length: pours + 1 }, (_, i) => ({
    pours: i,
    score: Number.POSITIVE_INFINITY,
    additions: {},
  }));
  const additions: Record<string, number> = {};
  const pourFrom = (from: number, count: number, sum: number): void => {
    const value = score(additions);
    if (value < best[count].score) best[count] = { pours: count, score: value, additions: { ...additions } };
    if (count === pours) return;
    for (let j = from; j < amounts.length; j++) {
      const { id } = toners.toners[j];
      for (const grams of amounts[j]) {
        if (sum + grams > room + 1e-9) break;
        additions[id] = grams;
        pourFrom(j + 1, count + 1, sum + grams);
      }
      delete additions[id];
    }
  };
  pourFrom(0, 0, 0);
  for (let i = 1; i <= pours; i++) if (best[i - 1].score <= best[i].score) best[i] = best[i - 1];
  return best;
}
