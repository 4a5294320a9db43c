import type { Lab } from "../../colorimetry/lab.js";
import type { Evaluation } from "../../forward/evaluate.js";
import { after } from "../../problem/after.js";
import { labAt } from "../../problem/goal.js";
import type { Problem } from "../../problem/problem.js";
import { gramsById } from "../../toners/pot.js";
import type { Direction, Measure, Proof } from "../records/proof.js";
import { type AimBall, aimBall, OUTWARD } from "./colourRows.js";
import { differenceNorm } from "./differenceNorm.js";
import { differenceSlope, dualNorm, radius } from "./measure.js";
import { type CaseSearch, type Effort, proveCase } from "./proveCase.js";
import { createReach } from "./reach.js";
import { isSomewhere, type Setting } from "./relaxation.js";
import { startRanges } from "./startRanges.js";

/** Effort of a bound: a few milliseconds for most targets (docs/evidence.md). */
export const EFFORT_DEFAULTS: Effort = Object.freeze({ rounds: 16, roundsInCase: 6, splits: 4 });

/** What a lower bound is asked of. */
export interface Question {
  readonly measure: Measure;
  /** The bound is not looked for above it: the measure of the best additions known, or 1 for the worst of all aims. */
  readonly level: number;
  /** Additions in the order of the toner set, as good as they are known. */
  readonly reference: Float64Array;
}

/**
 * A proof that no additions within stock and room have a measure below some bound, whatever the number of pours and the
 * scale. Outer linearisation of the colours that additions make (tangents and secants of the reflectance, McCormick's
 * inequalities, secants and tangents of CIE 1976, norms of CIEDE2000), made tighter by its own linear programmes and
 * split into cases where that is not enough; see docs/theory.md.
 */
export function lowerBound(
  problem: Problem,
  { measure, level, reference }: Question,
  effort: Effort = EFFORT_DEFAULTS,
): Proof {
  const { goal, model, bench, work } = problem;
  // Without work left for the first rows nothing is proved.
  if (!work.spend(START_STEPS * goal.aims.length ** 2))
    return nothingProved(problem, { measure, level, reference });
  const reach = createReach(problem, reference);
  const best = after(problem, reference);
  const balls = goal.aims.map((aim) => aimBall(aim, level * radius(measure, aim)));
  const directions: Direction[] = [];
  const most: number[] = [];
  const setting: Setting = {
    model,
    reach,
    optics: {
      surfaces: model.surfaces,
      anchor: model.anchor,
      reference: best.k.map((k, b) => k / best.s[b]),
    },
    level,
    balls,
    directions,
    most,
    work,
  };
  const add = (exact: readonly Lab[]) => {
    const along = exact.map(rounded);
    const norms = along.map((n, i) => normAlong(balls[i], n) * OUTWARD);
    const together = dualNorm(
      measure,
      norms.map((norm, i) => (norm > 0 ? norm * radius(measure, goal.aims[i]) : 0)),
    );
    if (!(together > 0 && Number.isFinite(together))) return;
    directions.push({ along, norms });
    most.push(together);
  };
  const alone = (i: number, n: Lab) => goal.aims.map((_, other): Lab => (other === i ? n : [0, 0, 0]));
  goal.aims.forEach(({ metric }, i) => {
    if (balls[i]) for (const n of aroundAim(metric)) add(alone(i, n));
  });
  const look = ({ lab }: Evaluation) => {
    const slopes = goal.aims.map((aim) => differenceSlope(aim.lab, labAt(lab, aim.place)));
    if (measure === "worst") {
      slopes.forEach((slope, i) => {
        if (balls[i]) add(alone(i, slope.n));
      });
    } else {
      add(
        slopes.map(
          ({ n, difference }, i): Lab => (balls[i] ? times(n, goal.aims[i].weight * difference) : [0, 0, 0]),
        ),
      );
    }
  };
  look(best);
  const search: CaseSearch = {
    setting,
    effort,
    splitsLeft: effort.splits,
    lookAt(grams) {
      const additions = new Float64Array(bench.pot.length);
      reach.free.forEach((j, i) => {
        additions[j] = grams[i];
      });
      look(after(problem, additions));
    },
  };
  const { proof, bound } = proveCase(search, startRanges(reach), []);
  return {
    measure,
    level,
    bound: Math.max(0, bound),
    reference: gramsById(reference, model.set.toners),
    boxes: balls.map((ball) => (ball ? { low: ball.low, high: ball.high } : null)),
    directions,
    root: proof,
  };
}

/** Steps of work per aim and direction, of which every aim has its own. */
const START_STEPS = 1500;

function nothingProved({ goal, model }: Problem, { measure, level, reference }: Question): Proof {
  return {
    measure,
    level,
    bound: 0,
    reference: gramsById(reference, model.set.toners),
    boxes: goal.aims.map(() => null),
    directions: [],
    root: { rounds: [], end: [] },
  };
}

/** 0 for an aim that plays no part. */
const normAlong = (ball: AimBall | undefined, n: Lab): number =>
  ball && isSomewhere(n) ? differenceNorm(ball.cells, n) : 0;

/** A direction is as good in few digits, and shorter. */
const rounded = (n: Lab): Lab => n.map((value) => Number(value.toPrecision(DIGITS))) as unknown as Lab;

const DIGITS = 5;

const times = ([l, a, b]: Lab, factor: number): Lab => [l * factor, a * factor, b * factor];

/** Along the axes of the local ellipsoid of CIEDE2000 and between them, both ways. */
function aroundAim(metric: readonly Lab[]): readonly Lab[] {
  const combine = (factors: readonly number[]): Lab =>
    [0, 1, 2].map((axis) =>
      factors.reduce((sum, factor, row) => sum + factor * metric[row][axis], 0),
    ) as unknown as Lab;
  const ways = [-1, 1];
  return [
    ...[0, 1, 2].flatMap((row) =>
      ways.map((way) => combine([0, 1, 2].map((other) => (other === row ? way : 0)))),
    ),
    ...ways.flatMap((l) => ways.flatMap((c) => ways.map((h) => combine([l, c, h])))),
  ];
}
