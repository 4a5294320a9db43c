import type { PanelToInfer } from "../belief/inferPanels.js";
import { type EyeGain, UNKNOWN_EYE } from "../belief/unknowns/instrument.js";
import { InputError } from "../core/InputError.js";
import type { Warning } from "../core/warning.js";
import type { ForwardModel } from "../forward/forwardModel.js";
import { alignReadings } from "../scene/alignReadings.js";
import { type Comparison, rangesOfGrades } from "../scene/readings/comparison.js";
import { gramsInOrder } from "../toners/pot.js";
import type { TonerSet } from "../toners/tonerSet.js";
import { fadedPaint } from "./fadedPaint.js";
import { placeOfEye } from "./geometriesSeen.js";
import type { CheckedJob, CheckedTarget } from "./job.js";
import { seenColours, type WeightsOf } from "./seenColours.js";

/** Where a job says nothing of who looked, one eye did. */
const SOMEBODY = "";

/** Sd of ln of what a panel has of a toner, against the pot, where its formula is not known (design value). */
const POT_SD = 0.4;

/** Whether a target's spectrum has to be inferred, at some geometry at least. */
export function isInferred({ colours, comparisons }: CheckedTarget): boolean {
  return colours.length > 0 || comparisons.length > 0;
}

/** What a job has of the targets whose spectra are to be inferred, and of the paints they may have. */
export function panelsToInfer(
  job: CheckedJob,
  model: ForwardModel,
  {
    toners,
    names,
    weightsOf,
  }: { readonly toners: TonerSet; readonly names: readonly string[]; readonly weightsOf: WeightsOf },
): readonly { readonly target: number; readonly panel: PanelToInfer }[] {
  const eye = placeOfEye(job, model.geometries);
  const pot = gramsInOrder(job.pot, toners.toners);
  const { observer } = job.viewing;
  return job.targets.flatMap((target, t) => {
    if (!isInferred(target)) return [];
    const { readings, colours, formula } = target;
    const spectra = readings.flatMap((reading) => {
      const geometry = model.geometries.indexOf(reading.geometry);
      // An angle that is left out.
      if (geometry < 0) return [];
      const path = `targets[${t}].readings`;
      return [{ geometry, reflectance: alignReadings([reading], [reading.geometry], model.set.grid, path) }];
    });
    const panel: PanelToInfer = {
      spectra,
      colours: seenColours(model, weightsOf, colours),
      comparisons: comparisonsWith(names, target, t).map((one) => ({
        card: names.lastIndexOf(one.card),
        geometry: eye,
        tristimulus: weightsOf({ illuminant: one.illuminant, observer }),
        observer: one.observer ?? SOMEBODY,
        eye: eyeOf(job, one.observer),
        grades: rangesOfGrades(one),
      })),
      pot: { grams: pot, tonerSds: pot.map((grams) => (grams > 0 ? POT_SD : 0)) },
      ...(formula && { formula: fadedPaint(toners.toners, gramsInOrder(formula, toners.toners)) }),
    };
    return [{ target: t, panel }];
  });
}

function eyeOf({ observers = {} }: CheckedJob, name: string | undefined): EyeGain {
  return name !== undefined && Object.hasOwn(observers, name) ? observers[name] : UNKNOWN_EYE;
}

/** The comparisons with cards of the belief. Throws `missing` for a target that nothing else was seen of. */
function comparisonsWith(
  names: readonly string[],
  { comparisons, readings, colours }: CheckedTarget,
  t: number,
): readonly Comparison[] {
  const some = comparisons.filter(({ card }) => names.includes(card));
  if (some.length + readings.length + colours.length > 0) return some;
  const reason = "none is with a card that is believed and not too old: compare it with the last card";
  throw new InputError("missing", `targets[${t}].comparisons`, reason);
}

/** Said of comparisons with cards that are not believed, or after which too many came. */
export function leftOutComparisons(job: CheckedJob, names: readonly string[]): readonly Warning[] {
  return job.targets.flatMap(({ comparisons }, t) =>
    comparisons.flatMap(({ card }, c): readonly Warning[] => {
      if (names.includes(card)) return [];
      const message = `left out: ${card} is not believed, or too many cards came after it`;
      return [{ code: "comparison-left-out", message, path: `targets[${t}].comparisons[${c}]` }];
    }),
  );
}
