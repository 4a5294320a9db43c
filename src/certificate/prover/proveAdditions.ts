import { after } from "../../problem/after.js";
import type { Problem } from "../../problem/problem.js";
import { PAINT_IS_FREE } from "../../problem/terms.js";
import { withRisk } from "../../problem/withRisk.js";
import { solve } from "../../search/solve.js";
import type { Bound, Certificate } from "../records/certificate.js";
import type { Measure, Proof } from "../records/proof.js";
import { bindingBands } from "./bindingBands.js";
import { FARTHEST } from "./differenceNorm.js";
import { lowerBound } from "./lowerBound.js";
import { measured } from "./measure.js";
import type { Effort } from "./proveCase.js";

/** An answer to be certified, in the order of the toner set. */
export interface Answer {
  readonly additions: Float64Array;
  /** Before pours were rounded to the scale. */
  readonly unrounded: Float64Array;
}

/** Below this weighted ΔE00 no proof is sought. */
const SMALL = 0.05;

/** A bound within this share of its level counts as having reached it. */
const ALMOST = 0.99999;

/** A proof at this level says that something is out of tolerance by at least so little. */
const JUST_OUT = 1.0001;

/** Shares of what is reached: far from the aims proofs are cheap, and the first that fails ends the search. */
const STEPS = [1 / 4, 1 / 2, 3 / 4, 7 / 8, 1];

/** Effort of the bound on the weighted measure, less than of the one on the worst. */
const SOME: Effort = Object.freeze({ rounds: 10, roundsInCase: 4, splits: 1 });
const LITTLE: Effort = Object.freeze({ rounds: 6, roundsInCase: 0, splits: 0 });

/** What a certificate says, without its header and checksum. */
export type Content = Omit<Certificate, "format" | "version" | "checksum">;

const measureAt = (problem: Problem, measure: Measure, grams: Float64Array): number =>
  measured(measure, problem.goal, after(problem, grams).lab);

/** The content of a certificate where the readings carry no answer. */
export const nothingProved = (problem: Problem, { additions }: Answer): Content => ({
  verdict: "undetermined",
  weightedDeltaE00: boundOf(0, measureAt(problem, "weighted", additions)),
  worstOfAllowed: boundOf(0, measureAt(problem, "worst", additions)),
  method: "none",
  binding: [],
  proofs: [],
});

/** What is proved of an answer: bounds on both measures, and whether something is out of reach. */
export function proveAdditions(
  problem: Problem,
  { additions, unrounded }: Answer,
  targets: readonly string[],
): Content {
  const reached = {
    weighted: measureAt(problem, "weighted", additions),
    worst: measureAt(problem, "worst", additions),
  };
  const isMatched = reached.worst <= 1;
  const known = [
    additions,
    unrounded,
    ...(isMatched ? [] : [solve(withRisk(problem, 0), PAINT_IS_FREE).additions]),
  ];
  const reference = known.reduce((best, other) =>
    measureAt(problem, "weighted", other) < measureAt(problem, "weighted", best) ? other : best,
  );
  const level = measureAt(problem, "weighted", reference);

  const proofs: Proof[] = [];
  if (!isMatched) proofs.push(lowerBound(problem, { measure: "worst", level: JUST_OUT, reference }));
  if (level > SMALL) proofs.push(weightedProof(problem, level, reference, isMatched));
  const useful = proofs.filter(({ bound }) => bound > 0);
  const atLeast = boundsFrom(problem, useful);
  return {
    verdict: isMatched ? "matched" : atLeast.worst > 1 ? "proved-out-of-reach" : "not-proved",
    weightedDeltaE00: boundOf(atLeast.weighted, reached.weighted),
    worstOfAllowed: boundOf(atLeast.worst, reached.worst),
    method: useful.length > 0 ? "outer-linearisation" : "none",
    binding: isMatched ? [] : bindingBands(problem, reference, targets),
    proofs: useful,
  };
}

const boundOf = (atLeast: number, reached: number): Bound => ({
  atLeast,
  reached,
  gap: Math.max(0, reached - atLeast),
});

/** The best proof at rising levels, up to the level that is known to be reached. */
function weightedProof(
  problem: Problem,
  reached: number,
  reference: Float64Array,
  isMatched: boolean,
): Proof {
  const heaviest = Math.max(...problem.goal.aims.map(({ weight }) => weight));
  const most = Math.min(reached, FARTHEST * Math.sqrt(heaviest));
  const levels = isMatched ? [most] : STEPS.map((share) => share * most);
  const prove = (level: number) =>
    lowerBound(problem, { measure: "weighted", level, reference }, isMatched ? LITTLE : SOME);
  let best = prove(levels[0]);
  for (const level of levels.slice(1)) {
    if (best.bound < ALMOST * best.level) break;
    const next = prove(level);
    if (next.bound <= best.bound) break;
    best = next;
  }
  return best;
}

/**
 * Each proof says something of both measures: if the worst is t, one ΔE00 is t·allowed, so the weighted one is at least
 * t·min √w·allowed; if the weighted one is v, then v² ≤ Σ w·(worst·allowed)².
 */
export function boundsFrom(
  { goal: { aims } }: Problem,
  proofs: readonly Pick<Proof, "measure" | "bound">[],
): { readonly weighted: number; readonly worst: number } {
  const most = (measure: Measure) =>
    Math.max(0, ...proofs.filter((proof) => proof.measure === measure).map(({ bound }) => bound));
  const least = Math.min(
    ...aims.map(({ weight, allowed }) => (weight > 0 ? Math.sqrt(weight) * allowed : 0)),
  );
  const together = Math.hypot(
    ...aims.map(({ weight, allowed }) => (weight > 0 ? Math.sqrt(weight) * allowed : 0)),
  );
  return {
    weighted: Math.max(most("weighted"), most("worst") * (Number.isFinite(least) ? least : 0) * INWARD),
    worst: Math.max(most("worst"), (most("weighted") / together) * INWARD),
  };
}

/** Rounding of a few operations, inward. */
const INWARD = 1 - 1e-12;
