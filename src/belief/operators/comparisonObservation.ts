import {
  type DifferencePart,
  type DifferenceParts,
  differenceParts,
} from "../../colorimetry/differenceParts.js";
import type { Lab } from "../../colorimetry/lab.js";
import type { TristimulusWeights } from "../../colorimetry/weights.js";
import { colourSlopes } from "../colourSlopes.js";
import type { Unknown } from "../unknown.js";
import type { EyeGain } from "../unknowns/instrument.js";
import { createGradeRoot } from "./createGradeRoot.js";
import type { Observation } from "./observation.js";

/** A component and the differences, in units of ΔE, that its grade stands for. */
export interface SeenGrade {
  readonly component: DifferencePart;
  readonly low: number;
  readonly high: number;
}

/** A panel held beside a card by an eye. */
export interface SeenComparison {
  /** Index of the card among those of the belief. */
  readonly card: number;
  readonly geometry: number;
  readonly tristimulus: TristimulusWeights;
  /** Who looked; the same name, the same gain. */
  readonly observer: string;
  /** What is known of that eye beforehand. */
  readonly eye: EyeGain;
  readonly grades: readonly SeenGrade[];
}

const STEP = 1e-4;

/**
 * A panel beside a card by eye: what each component of the difference looks like, w = e^γ·v, v the parts of CIEDE2000,
 * against the range that its grade stands for. Row: the signed root deviance of `createGradeRoot`, so that ½Σr² is −ln
 * likelihood but for a constant.
 */
export function comparisonObservation(
  panel: number,
  { card, geometry, tristimulus, grades, eye }: SeenComparison,
  gain: Unknown,
): Observation {
  const bands = tristimulus.grid.count;
  const from = geometry * bands;
  const roots = grades.map(createGradeRoot);
  return {
    films: [panel, card],
    own: [gain],
    geometry,
    rows: grades.length,
    look: (reflectances, [u]) => {
      const factor = Math.exp(eye.logGain + eye.sd * u);
      const seen = reflectances.map((one) => colourSlopes(one.subarray(from, from + bands), tristimulus));
      const labs = seen.map(({ lab }) => lab);
      const parts = differenceParts(labs[1], labs[0]);
      const at = grades.map(({ component }, g) => roots[g](factor * parts[component]));
      const byLab = labs.map((_, film) => [0, 1, 2].map((axis) => partSlopes(labs, film, axis)));
      return {
        residual: Float64Array.from(at, ({ root }) => -root),
        carry: (film, change, span, out, to) => {
          const { by } = seen[film];
          const [first, end] = [Math.max(0, span.from - from), Math.min(bands, span.to - from)];
          for (let axis = 0; axis < 3; axis++) {
            let sum = 0;
            for (let b = first; b < end; b++) sum += by[axis * bands + b] * change[from + b];
            if (sum === 0) continue;
            grades.forEach(({ component }, g) => {
              out[to + g] += at[g].slope * factor * byLab[film][axis][component] * sum;
            });
          }
        },
        byOwn: [
          Float64Array.from(grades, ({ component }, g) => at[g].slope * factor * parts[component] * eye.sd),
        ],
      };
    },
  };
}

/** ∂parts/∂Lab of one of the two colours by one axis, by central differences: CIEDE2000 has kinks, not many places. */
export function partSlopes(labs: readonly Lab[], film: number, axis: number): DifferenceParts {
  const moved = (by: number) => {
    const [panel, card] = labs.map((lab, f) => {
      if (f !== film) return lab;
      const next: [number, number, number] = [lab[0], lab[1], lab[2]];
      next[axis] += by;
      return next;
    });
    return differenceParts(card, panel);
  };
  const [above, below] = [moved(STEP), moved(-STEP)];
  const slope = (component: DifferencePart) => (above[component] - below[component]) / (2 * STEP);
  return {
    lighter: slope("lighter"),
    redder: slope("redder"),
    yellower: slope("yellower"),
    moreChromatic: slope("moreChromatic"),
  };
}
