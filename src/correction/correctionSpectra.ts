import { createEvaluation, evaluate } from "../forward/evaluate.js";
import { checkJob, type Job } from "../problem/job.js";
import { prepareProblem } from "../problem/problem.js";
import type { Grid } from "../spectra/grid.js";
import type { Geometry } from "../surface/geometry.js";
import { gramsInOrder } from "../toners/pot.js";
import type { Correction } from "./correction.js";

/** Reflectances at one geometry, on the bands that the toners and all readings share. */
export interface CorrectionSpectra {
  readonly geometry: Geometry;
  readonly grid: Grid;
  readonly card: readonly number[];
  /** Of the mix after the additions, tied to the card. */
  readonly after: readonly number[];
  readonly targets: readonly { readonly name: string; readonly reflectance: readonly number[] }[];
}

/**
 * The reflectances behind a correction of a job: the card's, the targets' that were read at the geometry, and what is
 * predicted for the pot afterwards. Throws what `correct` throws.
 */
export function correctionSpectra(
  job: Job,
  { potAfter }: Pick<Correction, "potAfter">,
): readonly CorrectionSpectra[] {
  const checked = checkJob(job);
  const { model, goal, bench } = prepareProblem(checked).problem;
  const card = createEvaluation(model);
  const after = createEvaluation(model);
  evaluate(model, bench.pot, card);
  evaluate(model, gramsInOrder(potAfter, model.set.toners), after);
  return model.geometries.map((geometry, g) => ({
    geometry,
    grid: model.set.grid,
    card: Array.from(card.spectra[g]),
    after: Array.from(after.spectra[g]),
    targets: goal.spectra
      .filter((aim) => aim.geometry === g)
      .map(({ target, reflectance }) => ({
        name: checked.targets[target].name,
        reflectance: Array.from(reflectance),
      })),
  }));
}
