import { sum } from "../core/sum.js";
import type { Warning } from "../core/warning.js";
import type { Evaluation } from "../forward/evaluate.js";
import { hidingChange } from "../forward/hidingChange.js";
import { after } from "../problem/after.js";
import type { CorrectionObjective } from "../problem/correctionObjective.js";
import { differences, labAt, weightedDifference } from "../problem/goal.js";
import type { CheckedJob } from "../problem/job.js";
import { poured } from "../problem/poured.js";
import type { PreparedProblem, Problem } from "../problem/problem.js";
import { asSprayed } from "../problem/spray/asSprayed.js";
import type { ChosenBy } from "../problem/weighMix.js";
import { collinearWarnings } from "../search/collinearToners.js";
import type { SearchReport } from "../search/searchReport.js";
import { faceAndFlop } from "../surface/faceAndFlop.js";
import type { Geometry } from "../surface/geometry.js";
import { gramsById } from "../toners/pot.js";
import { isEffect } from "../toners/toner.js";
import { choice } from "./choice.js";
import type {
  Addition,
  Alternative,
  Choice,
  Correction,
  CorrectionStatus,
  FinerScale,
  Obstacle,
  TargetPrediction,
  Tie,
  UnusedToner,
  WayOut,
} from "./correction.js";
import { expectation } from "./expectation.js";
import { targetMetamerism } from "./targetMetamerism.js";

/** What the solver decided, amounts in the order of the toner set. */
export interface Outcome {
  readonly status: CorrectionStatus;
  readonly additions: Float64Array;
  readonly unrounded: Float64Array;
  readonly objective: CorrectionObjective;
  /** The best of each number of pours, fewest first. */
  readonly byPours: readonly Float64Array[];
  readonly chosenBy: ChosenBy | null;
  /** The closest match, where thrift chose another. */
  readonly closest: Float64Array | null;
  readonly wayOut: WayOut | null;
  readonly ties: readonly Tie[];
  readonly alternatives: readonly Alternative[];
  readonly unused: readonly UnusedToner[];
  readonly finerScale: FinerScale | null;
  readonly search: SearchReport;
  readonly obstacles: readonly Obstacle[];
  readonly stopReason: string;
  readonly iterations: number;
}

/** Statuses of which no chance of the next card is told: nothing is poured, or how well the gun follows is not known. */
export const NOT_FORECAST: readonly CorrectionStatus[] = ["undetermined", "respray", "other-flake"];

/** A warning is given where the film needed to hide grows by more than this factor: common practice, no source. */
const HIDING_LOSS = 1.1;

/** The answer's record, the same for every status, from the exact model before and after the additions. */
export function assembleCorrection(job: CheckedJob, prepared: PreparedProblem, outcome: Outcome): Correction {
  const { judgement, warnings } = prepared;
  const { verdict, soundProbability, explanations } = judgement;
  const { status, additions, unrounded, byPours, obstacles, stopReason, iterations } = outcome;
  const { objective, ties, alternatives, unused, finerScale, search, wayOut } = outcome;
  const problem = asSprayed(prepared);
  const { model, goal, bench } = problem;
  const atStart = after(prepared.problem, new Float64Array(additions.length));
  const atEnd = after(problem, additions);
  const gramsAfter = bench.pot.map((grams, j) => tidy(grams + additions[j]));
  const used = poured(additions);
  const hidingThicknessRatio = used.length === 0 ? 1 : hidingChange(model, bench.pot, gramsAfter);
  return {
    format: "masstone/correction",
    version: 1,
    status,
    additions: pours(prepared.problem, additions, unrounded),
    potAfter: gramsById(gramsAfter, model.set.toners),
    potGramsAfter: tidy(sum(gramsAfter)),
    predictions: predictions(job, problem, atStart, atEnd),
    weightedDeltaE00: {
      before: weightedDifference(goal, atStart.lab),
      after: weightedDifference(goal, atEnd.lab),
    },
    ...(prepared.spray && { spray: prepared.spray }),
    card: { verdict, soundProbability, explanations },
    expected: NOT_FORECAST.includes(status) ? null : expectation(prepared, additions),
    objective,
    byPours: byPours.map((one) => choice(problem, one)),
    chosenBy: outcome.chosenBy,
    closest: outcome.closest && choice(problem, outcome.closest),
    ties,
    alternatives,
    unused,
    finerScale,
    search,
    metamerism: targetMetamerism(job, problem, atEnd),
    hidingThicknessRatio,
    obstacles,
    wayOut,
    stopReason,
    iterations,
    warnings: [
      ...warnings,
      ...collinearWarnings(model, gramsAfter, used),
      ...hidingWarnings(hidingThicknessRatio),
      ...whiteWarnings(problem, [
        ...used.map((j) => model.set.toners[j].id),
        ...alternatives.flatMap(tonersOf),
        ...(wayOut?.pourOff ? tonersOf(wayOut.pourOff.then) : []),
        ...Object.keys(wayOut?.newPot?.recipe ?? {}),
      ]),
    ],
  };
}

/** Largest pour first: the small, strong ones last, when less can go wrong. */
function pours(problem: Problem, additions: Float64Array, unrounded: Float64Array): readonly Addition[] {
  const { toners } = problem.model.set;
  const [{ place, light }] = problem.goal.aims;
  const { lights, geometries } = problem.model;
  const sides = faceAndFlop(geometries);
  const placeOf = (geometry: Geometry) => 3 * (geometries.indexOf(geometry) * lights.length + light);
  const sofar = new Float64Array(additions.length);
  return [...poured(additions)]
    .sort((a, b) => additions[b] - additions[a])
    .map((j) => {
      sofar[j] = additions[j];
      const drop = problem.bench.drop[j];
      const { lab } = after(problem, sofar);
      return {
        toner: toners[j].id,
        grams: additions[j],
        drops: drop > 0 ? Math.round(additions[j] / drop) : null,
        gramsUnrounded: unrounded[j],
        labAfter: labAt(lab, place),
        ...(sides && {
          faceAndFlop: { face: labAt(lab, placeOf(sides.face)), flop: labAt(lab, placeOf(sides.flop)) },
        }),
      };
    });
}

function predictions(
  { targets }: CheckedJob,
  { model, goal }: Problem,
  atStart: Evaluation,
  atEnd: Evaluation,
): readonly TargetPrediction[] {
  const before = differences(goal, atStart.lab);
  const now = differences(goal, atEnd.lab);
  return goal.aims.map((aim, i) => ({
    target: targets[aim.target].name,
    geometry: model.geometries[aim.geometry],
    illuminant: model.lights[aim.light].name,
    deltaE00Before: before[i],
    deltaE00After: now[i],
    deltaE00Allowed: aim.allowed,
    labTarget: aim.lab,
    labBefore: labAt(atStart.lab, aim.place),
    labAfter: labAt(atEnd.lab, aim.place),
  }));
}

const tonersOf = ({ additions }: Choice) => additions.map(({ toner }) => toner);

/** Warning where white is poured into a pot with flake, or could be. */
function whiteWarnings({ model: { set }, bench }: Problem, poured: readonly string[]): readonly Warning[] {
  const white = set.toners
    .filter(({ id, role }) => role === "white" && poured.includes(id))
    .map(({ id }) => id);
  if (white.length === 0 || !set.toners.some((toner, j) => isEffect(toner) && bench.pot[j] > 0)) return [];
  const message = `${white.join(", ")} in a pot with flake tilts the flake: face and flop change by more than its colour, and are known less well`;
  return [{ code: "white-tilts-flake", message, toners: white }];
}

function hidingWarnings(ratio: number): readonly Warning[] {
  if (!(ratio > HIDING_LOSS)) return [];
  const message = `the corrected mix needs ${ratio.toFixed(2)} times the film build to hide as the card's did`;
  return [{ code: "hiding-loss", message }];
}

/** Sums of decimal grams without the tail that binary fractions leave. */
function tidy(grams: number): number {
  return Number(grams.toPrecision(14));
}
