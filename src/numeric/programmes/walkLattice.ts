import { stepsToReach, stepsWithin } from "../scalar/stepsWithin.js";
/** ‖Rx − t‖² over x whose entries are whole multiples of steps, within bounds. */
export interface LatticeProblem {
  /** Upper triangle R, row-major, square. */
  readonly triangle: Float64Array;
  readonly right: Float64Array;
  /** Step of each entry; 0 leaves it continuous. Continuous entries come first. */
  readonly steps: ArrayLike<number>;
  readonly low: ArrayLike<number>;
  readonly high: ArrayLike<number>;
  readonly sumAtMost: number;
  readonly maxNodes: number;
}

export interface LatticeWalk {
  readonly nodes: number;
  /** Whether every point within the radius was visited; otherwise `maxNodes` ended the walk. */
  readonly isComplete: boolean;
}

/**
 * Visits every lattice point with ‖Rx − t‖² ≤ radius²; the visitor gets x and ‖Rx − t‖², and returns the radius² from
 * there on. Depth first from the last entry, the nearest step first: branch and bound in which the squares of the entries fixed so
 * far are the bound. A continuous entry takes its best value within its bounds.
 * Source: Pohst 1981; Schnorr & Euchner 1994.
 */
export function walkLattice(
  { triangle, right, steps, low, high, sumAtMost, maxNodes }: LatticeProblem,
  radiusSquared: number,
  visit: (x: Float64Array, squares: number) => number,
): LatticeWalk {
  const order = right.length;
  const x = new Float64Array(order);
  let limit = radiusSquared;
  let nodes = 0;
  let isComplete = true;

  const descend = (level: number, squares: number, sum: number): void => {
    if (level < 0) {
      limit = visit(x, squares);
      return;
    }
    const row = level * order;
    const pivot = triangle[row + level];
    let rest = right[level];
    for (let j = level + 1; j < order; j++) rest -= triangle[row + j] * x[j];
    const room = sumAtMost - sum;
    const goOn = (value: number): boolean => {
      const missed = pivot * value - rest;
      const total = squares + missed * missed;
      if (total > limit) return false;
      if (nodes >= maxNodes) {
        isComplete = false;
        return false;
      }
      nodes++;
      x[level] = value;
      descend(level - 1, total, sum + value);
      return true;
    };
    const centre = pivot === 0 ? low[level] : rest / pivot;
    const step = steps[level];
    if (step === 0) {
      goOn(Math.min(Math.max(centre, low[level]), Math.min(high[level], room)));
      return;
    }
    const least = stepsToReach(low[level], step);
    const most = stepsWithin(Math.min(high[level], room), step);
    if (most < least) return;
    if (pivot === 0) {
      // All are equally near: what ends it for one ends it for the others.
      for (let count = least; count <= most && goOn(count * step); count++);
      return;
    }
    let up = Math.min(Math.max(Math.round(centre / step), least), most);
    let down = up - 1;
    while (up <= most || down >= least) {
      const isUp = down < least || (up <= most && up * step - centre <= centre - down * step);
      // Where the nearer side is out, so is the farther one.
      if (!goOn((isUp ? up++ : down--) * step)) return;
    }
  };
  descend(order - 1, 0, 0);
  return { nodes, isComplete };
}
