import type { ForwardModel } from "../../forward/forwardModel.js";
import type { BeliefSizes } from "../beliefSizes.js";
import type { Unknown } from "../unknown.js";
import { roughCurve } from "./roughCurve.js";

/** What the characterisation missed of each toner of `used`: a rough curve in ln K by geometry, a level in ln S. */
export function tonerUnknowns(
  { set, geometries, coefficients: { size } }: ForwardModel,
  used: readonly number[],
  { tonerCurveSd, tonerScatteringSd }: BeliefSizes,
): readonly Unknown[] {
  const { count } = set.grid;
  const unit = roughCurve(set.grid);
  const curves = geometries.flatMap((_, g) => unit.map((shape) => ({ from: g * count, shape })));
  const level = [{ from: 0, shape: new Float64Array(size).fill(1) }];
  return used.flatMap((toner): readonly Unknown[] => {
    const { misfit = 1 } = set.toners[toner];
    const moving = (field: "k" | "s", sd: number, shapes: typeof curves): readonly Unknown[] => {
      const share = () => sd;
      return sd === 0
        ? []
        : shapes.map((one) => ({ owner: "toner", effects: [{ field, toner, ...one, share }] }));
    };
    return [...moving("k", tonerCurveSd * misfit, curves), ...moving("s", tonerScatteringSd * misfit, level)];
  });
}
