import { deltaE00Metric } from "../colorimetry/deltaE00Metric.js";
import { sum } from "../core/sum.js";
import type { Gradient } from "../forward/differentiate.js";
import type { Evaluation } from "../forward/evaluate.js";
import { colourCount, type ForwardModel } from "../forward/forwardModel.js";

/** What a gram of each toner does to the colours, as vectors: their lengths, and the cosines between them. */
export interface DirectionCosines {
  /** ΔE00 per gram, the root mean square over geometries and lights by the weights of the lights. */
  readonly lengths: readonly number[];
  /** Between −1 (opposite) and 1 (the same); 0 where a toner does nothing. */
  readonly cosine: (toner: number, other: number) => number;
}

/**
 * The vectors √w·M·∂(L*, a*, b*)/∂g over all geometries and lights, M the local metric of CIEDE2000 at the mix `at`
 * and the weights w adding up to 1, so that lengths are what the eye sees, and angles too.
 */
export function directionCosines(model: ForwardModel, at: Evaluation, { lab }: Gradient): DirectionCosines {
  const colours = colourCount(model);
  const width = 3 * colours;
  const weights = model.geometries.flatMap(() => model.lights.map(({ weight }) => weight));
  const total = sum(weights);
  const vectors = model.set.toners.map(() => new Float64Array(width));
  for (let c = 0; c < colours; c++) {
    const place = 3 * c;
    const metric = deltaE00Metric([at.lab[place], at.lab[place + 1], at.lab[place + 2]]);
    const scale = Math.sqrt(weights[c] / total);
    vectors.forEach((vector, j) => {
      const from = j * width + place;
      metric.forEach(([byL, byA, byB], axis) => {
        vector[place + axis] = scale * (byL * lab[from] + byA * lab[from + 1] + byB * lab[from + 2]);
      });
    });
  }
  const product = (j: number, other: number) =>
    vectors[j].reduce((sum, value, i) => sum + value * vectors[other][i], 0);
  const lengths = vectors.map((_, j) => Math.sqrt(product(j, j)));
  const cosine = (j: number, other: number) => {
    const both = lengths[j] * lengths[other];
    return both > 0 ? Math.max(-1, Math.min(1, product(j, other) / both)) : 0;
  };
  return { lengths, cosine };
}
