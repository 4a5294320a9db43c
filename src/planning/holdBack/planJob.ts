import { BELIEF_SIZES_SHAPE, type BeliefSizes, beliefSizesOf } from "../../belief/beliefSizes.js";
import { VIEWING, type Viewing } from "../../colorimetry/viewing.js";
import { checkOneOf } from "../../core/check.js";
import { InputError } from "../../core/InputError.js";
import { list } from "../../core/shape/list.js";
import { number } from "../../core/shape/number.js";
import { oneOf } from "../../core/shape/oneOf.js";
import { optional } from "../../core/shape/optional.js";
import { type Noted, record } from "../../core/shape/record.js";
import { text } from "../../core/shape/text.js";
import { checkLimits, LIMITS, type Limits } from "../../problem/limits.js";
import { STEP_PRICES, STEP_PRICES_SHAPE, type StepPrices } from "../../problem/stepPrices.js";
import { checkIsRead, type Unread } from "../../scene/card.js";
import {
  type CheckedColourReading,
  COLOURS,
  type ColourReading,
} from "../../scene/readings/colourReading.js";
import { READINGS, type Reading, SOME_READINGS } from "../../surface/reading.js";
import {
  BLEND_ALLOWANCE,
  BLEND_ALLOWANCE_DEFAULTS,
  type BlendAllowance,
} from "../../tolerance/blendAllowance.js";
import {
  TARGET_ROLES,
  type TargetRole,
  TOLERANCE,
  TOLERANCE_DEFAULTS,
  type Tolerance,
} from "../../tolerance/tolerance.js";
import { checkNotGeneric } from "../../toners/checkNotGeneric.js";
import { FADE_PRIORS_SHAPE, type FadePriors } from "../../toners/fadePrior.js";
import { checkPot, checkToners, FINEST_GRAMS, GRAMS, type Grams, MOST_GRAMS } from "../../toners/pot.js";
import { TONER_SET, type TonerSet } from "../../toners/tonerSet.js";
import { PLAN_DEFAULTS, PLAN_OPTIONS, type PlanOptions } from "./planOptions.js";

/** A formula that the panels may have been painted with: one of the variants on hand. */
export interface Formula extends Noted {
  /** No two of a plan alike. */
  readonly name: string;
  /** By toner id, in any amount. */
  readonly grams: Grams;
  /** The colour of the formula freshly sprayed, where it was measured. */
  readonly readings?: readonly Reading[];
}

/** A panel as it looks today. */
export interface Panel extends Noted {
  /** No two of a plan alike. */
  readonly name: string;
  /** The stricter of the two when absent. */
  readonly role?: TargetRole;
  /** How much of the paint this panel takes, against the others. */
  readonly share?: number;
  /** Spectra; an empty list where there are `colours` alone. */
  readonly readings: readonly Reading[];
  /** Colours without spectra: the panel's spectrum is then inferred from the formula that the plan is made with. */
  readonly colours?: readonly ColourReading[];
}

/** What `planHoldBack` needs: formulas, panels, how much paint is wanted, and the bench. */
export interface PlanJob extends Noted {
  readonly toners: TonerSet;
  readonly viewing: Viewing;
  readonly formulas: readonly Formula[];
  /** The formula to plan with, by name; the one that explains the panels best when absent. */
  readonly formula?: string;
  readonly panels: readonly Panel[];
  /** Grams of paint for all panels together. */
  readonly wantedGrams: number;
  readonly limits?: Limits;
  /** Of it `edgeDeltaE00` counts; for blends `blendAllowance` does. */
  readonly tolerance?: Partial<Tolerance>;
  readonly blendAllowance?: Partial<BlendAllowance>;
  /** By toner id, where the prior of its role will not do. */
  readonly fadePriors?: FadePriors;
  /** How far cans, toners and readings may be off beforehand, where what the toner set says will not do. */
  readonly belief?: Partial<BeliefSizes>;
  /** What each step costs, for the steps that a record advises; those that are absent keep their default. */
  readonly prices?: Partial<StepPrices>;
  readonly options?: Partial<PlanOptions>;
}

/** A panel with every default in place. */
export type CheckedPanel = Required<Omit<Panel, "notes" | "colours">> &
  Noted & { readonly colours: readonly CheckedColourReading[] };

/** A plan's job with everything checked and every default in place. */
export interface CheckedPlanJob extends PlanJob {
  readonly panels: readonly CheckedPanel[];
  readonly limits: Limits;
  readonly tolerance: Tolerance;
  readonly blendAllowance: BlendAllowance;
  readonly fadePriors: FadePriors;
  readonly belief: BeliefSizes;
  readonly prices: StepPrices;
  readonly options: PlanOptions;
}

const FORMULAS = list(record<Formula>({ name: text(), grams: GRAMS, readings: optional(READINGS) }), {
  min: 1,
  max: 50,
  unique: "name",
});

/** Twelve panels are more than a car has, and few enough to find the fewest pots by looking at all subsets. */
const PANELS = list(
  record<CheckedPanel, Unread<Panel>>({
    name: text(),
    role: optional(oneOf(TARGET_ROLES), "edge"),
    share: optional(number({ min: 0, aboveMin: true, max: 1e6 }), 1),
    readings: optional(SOME_READINGS, []),
    colours: optional(COLOURS, []),
  }),
  { min: 1, max: 12, unique: "name" },
);

/** A plan as it may be given: panels may leave their spectra out. */
type PlanJobGiven = Omit<PlanJob, "panels"> & { readonly panels: readonly Unread<Panel>[] };

/** A plan whose parts were checked each for itself. */
export type PlanByItself = Omit<CheckedPlanJob, "belief"> & Pick<PlanJob, "belief">;

/** The shape of a plan; `checkPlanJob` also checks that its parts fit one another. */
export const PLAN_JOB = record<PlanByItself, PlanJobGiven>(
  {
    toners: TONER_SET,
    viewing: VIEWING,
    formulas: FORMULAS,
    formula: optional(text()),
    panels: PANELS,
    wantedGrams: number({ min: FINEST_GRAMS, max: MOST_GRAMS }),
    limits: optional(LIMITS, {}),
    tolerance: optional(TOLERANCE, TOLERANCE_DEFAULTS),
    blendAllowance: optional(BLEND_ALLOWANCE, BLEND_ALLOWANCE_DEFAULTS),
    fadePriors: optional(FADE_PRIORS_SHAPE, {}),
    belief: optional(BELIEF_SIZES_SHAPE),
    prices: optional(STEP_PRICES_SHAPE, STEP_PRICES),
    options: optional(PLAN_OPTIONS, PLAN_DEFAULTS),
  },
  { format: "masstone/plan" },
);

/** Checks a whole plan; paths are relative to it, such as `panels[0].readings[0].reflectance[3]`. */
export function checkPlanJob(value: unknown): CheckedPlanJob {
  const given = PLAN_JOB.check(value, "");
  const job = { ...given, belief: { ...beliefSizesOf(given.toners), ...given.belief } };
  const { toners } = job.toners;
  job.formulas.forEach(({ grams }, i) => {
    checkPot(grams, `formulas[${i}].grams`, toners);
    checkNotGeneric(grams, `formulas[${i}].grams`, job.toners);
  });
  job.panels.forEach((panel, i) => {
    checkIsRead(panel, `panels[${i}]`);
  });
  checkLimits(job.limits, "limits", toners);
  checkToners(job.fadePriors, "fadePriors", toners);
  const most = job.limits.potMaxGrams;
  if (most !== undefined && job.wantedGrams > most) {
    const reason = `${job.wantedGrams} g are more than the cup holds (potMaxGrams, ${most} g): plan one cup at a time`;
    throw new InputError("out-of-range", "wantedGrams", reason);
  }
  if (job.formula !== undefined) {
    checkOneOf(
      job.formula,
      "formula",
      job.formulas.map(({ name }) => name),
    );
  }
  return job;
}
