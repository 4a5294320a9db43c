import { ILLUMINANT } from "../colorimetry/illuminant.js";
import { checkRecord } from "../core/check.js";
import { InputError } from "../core/InputError.js";
import { list } from "../core/shape/list.js";
import { number } from "../core/shape/number.js";
import { oneOf } from "../core/shape/oneOf.js";
import { optional } from "../core/shape/optional.js";
import { record } from "../core/shape/record.js";
import { rule } from "../core/shape/rule.js";
import type { Shape } from "../core/shape/shape.js";
import { prose, text } from "../core/shape/text.js";
import { variants } from "../core/shape/variants.js";
import type { Correction } from "../correction/correction.js";
import type { NextLook } from "../correction/nextLook.js";
import type { HoldBackPlan } from "../planning/holdBack/holdBackPlan.js";
import { STEPS } from "../planning/nextStep/nextStep.js";
import { COLOURS } from "../scene/readings/colourReading.js";
import { COMPARISON } from "../scene/readings/comparison.js";
import { SOME_READINGS } from "../surface/reading.js";
import { MASS_UNITS } from "../toners/massUnit.js";
import { FINEST_GRAMS, GRAMS, MOST_GRAMS } from "../toners/pot.js";
import type { AdvisedStep, Poured, RecordEntry } from "./recordEntry.js";

const POURED = number({ min: FINEST_GRAMS, max: MOST_GRAMS });

const POUR = { toner: text(), grams: POURED, can: optional(text()) };

type Anything = Readonly<Record<string, unknown>>;

/** Any record; its contents are not checked here. */
const ANYTHING: Shape<Anything> = Object.freeze({
  check: (value: unknown, path: string) => ({ ...checkRecord(value, path) }),
  form: { kind: "other", schema: { type: "object" } },
} as const);

/** A job without pot and card, as its own file has it; whoever works it out checks it. */
const JOB_PART = rule(ANYTHING, withoutPot, { propertyNames: { not: { enum: ["pot", "card"] } } });

/** The shape of an entry; `jobState` checks that it fits the entries before it. */
export const RECORD_ENTRY_SHAPE = variants<RecordEntry, "kind">("kind", {
  job: { job: JOB_PART, unit: optional(oneOf(MASS_UNITS)) },
  plan: { plan: ANYTHING, unit: optional(oneOf(MASS_UNITS)) },
  planned: { library: text(), planned: ANYTHING as unknown as Shape<HoldBackPlan> },
  pour: POUR,
  "pour-off": { grams: POURED },
  sprayed: { panels: list(text(), { min: 1 }), grams: POURED },
  "new-pot": {},
  card: { name: text(), readings: SOME_READINGS, colours: optional(COLOURS) },
  comparison: { target: text(), comparison: COMPARISON },
  answer: {
    library: text(),
    answer: ANYTHING as unknown as Shape<Correction>,
    step: optional(
      record<AdvisedStep>({
        step: oneOf(STEPS),
        grams: optional(GRAMS),
        gramsOff: optional(POURED),
        look: optional(record<NextLook>({ target: text(), card: text(), illuminant: ILLUMINANT })),
      }),
    ),
  },
  withdraw: { entry: number({ min: 0, whole: true }), instead: optional(record<Poured>(POUR)) },
  note: { text: prose() },
});

function withoutPot(job: Anything, path: string): void {
  for (const key of ["pot", "card"]) {
    if (job[key] === undefined) continue;
    const reason = "is noted by pours and cards, not in the job of a record";
    throw new InputError("unknown-key", `${path}.${key}`, reason);
  }
}
