import type { PanelToInfer } from "../belief/inferPanels.js";
import { InputError } from "../core/InputError.js";
import type { ForwardModel } from "../prediction/forwardModel.js";
import { alignReadings } from "../scene/alignReadings.js";
import { type Comparison, rangesOfGrades } from "../scene/readings/comparison.js";
import { gramsInOrder } from "../toners/pot.js";
import type { TonerSet } from "../toners/tonerSet.js";
import { fadedPaint } from "./fadedPaint.js";
import { geometryOfEye } from "./geometriesSeen.js";
import type { CheckedJob, CheckedTarget } from "./job.js";
import { createWeights, seenColours } from "./seenColours.js";

/** Where a job says nothing of who looked, one eye did. */
const SOMEBODY = "";

/** Sd of ln of what a panel has of a toner, against the pot, where its formula is not known (design value). */
const POT_SD = 0.2;

/** Whether a target's spectrum has to be inferred, at some geometry at least. */
export function isInferred({ colours, comparisons }: CheckedTarget): boolean {
  return colours.length > 0 || comparisons.length > 0;
}

/** What a job has of the targets whose spectra are to be inferred, and of the paints they may have. */
export function panelsToInfer(
  job: CheckedJob,
  model: ForwardModel,
  { toners, names }: { readonly toners: TonerSet; readonly names: readonly (string | null)[] },
): readonly { readonly target: number; readonly panel: PanelToInfer }[] {
  const weightsOf = createWeights(model);
  const eye = model.geometries.indexOf(geometryOfEye(job));
  const pot = gramsInOrder(job.pot, toners.toners);
  const { observer } = job.viewing;
  return job.targets.flatMap((target, t) => {
    if (!isInferred(target)) return [];
    const { readings, colours, comparisons, formula } = target;
    const spectra = readings.map((reading) => ({
      geometry: model.geometries.indexOf(reading.geometry),
      reflectance: alignReadings([reading], [reading.geometry], model.set.grid, `targets[${t}].readings`),
    }));
    const panel: PanelToInfer = {
      spectra,
      colours: seenColours(model, weightsOf, colours),
      comparisons: comparisons.flatMap((one, c) => ({
        card: placeOf(one, names, `targets[${t}].comparisons[${c}].card`),
        geometry: eye,
        tristimulus: weightsOf({ illuminant: one.illuminant, observer }),
        observer: one.observer ?? SOMEBODY,
        grades: rangesOfGrades(one),
      })),
      pot: { grams: pot, tonerSds: pot.map((grams) => (grams > 0 ? POT_SD : 0)) },
      ...(formula && { formula: fadedPaint(toners.toners, gramsInOrder(formula, toners.toners)) }),
    };
    return [{ target: t, panel }];
  });
}

/** The card of the belief that a comparison is with. Throws `unknown-word` for one that is not believed or is too old. */
function placeOf({ card }: Comparison, names: readonly (string | null)[], path: string): number {
  const place = names.lastIndexOf(card);
  if (place >= 0) return place;
  throw new InputError("out-of-range", path, "this card is not believed, or too many came after it");
}
