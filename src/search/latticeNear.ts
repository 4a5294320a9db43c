import { solveTransposed, upperFactor } from "../numeric/linear/upperFactor.js";
import { type LatticeWalk, walkLattice } from "../numeric/programmes/walkLattice.js";
import type { Bench } from "../problem/bench.js";
import { withinReach } from "./mayBeOff.js";
import type { SubsetBox } from "./subsetBox.js";
import type { SubsetModel } from "./subsetModel.js";

/** A part of the lattice with the linear model that stands for it: squares at x are rest + ‖R·x − t‖². */
export interface LatticeCell {
  readonly model: SubsetModel;
  /** R, upper triangular, row-major. */
  readonly triangle: Float64Array;
  readonly right: Float64Array;
  readonly rest: number;
  /** From the model's best point to the mix where it is exact, which may lie at a wall: ‖R·amounts − t‖. */
  readonly lead: number;
  /** Offers every lattice point that the model, allowing for its error, sees below `bar`; the nearest first. */
  walk(bar: () => number, offer: (amounts: Float64Array) => void, maxNodes: number): LatticeWalk;
}

export function latticeNear({ unit }: Bench, model: SubsetModel, box: SubsetBox): LatticeCell {
  const { toners, amounts, squares, gram, side } = model;
  const order = toners.length;
  const triangle = upperFactor(gram, order);
  const right = solveTransposed(triangle, order, side);
  const lead = Math.hypot(...right);
  const rest = squares - lead * lead;
  for (let i = 0; i < order; i++) {
    for (let j = i; j < order; j++) right[i] += triangle[i * order + j] * amounts[j];
  }
  return {
    model,
    triangle,
    right,
    rest,
    lead,
    walk: (bar, offer, maxNodes) =>
      walkLattice(
        {
          triangle,
          right,
          steps: toners.map((j) => unit[j]),
          low: box.low,
          high: box.high,
          sumAtMost: box.room,
          maxNodes,
        },
        withinReach(bar(), rest, lead),
        (x) => {
          offer(x);
          return withinReach(bar(), rest, lead);
        },
      ),
  };
}
