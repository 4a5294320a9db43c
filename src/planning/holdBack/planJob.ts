import { checkViewing, type Viewing } from "../../colorimetry/viewing.js";
import { checkList, checkNumber, checkOneOf, checkRecord, checkText, pathTo } from "../../core/check.js";
import { InputError } from "../../core/InputError.js";
import { checkLimits, type Limits } from "../../correction/limits.js";
import { checkReadings, type Reading } from "../../surface/reading.js";
import { type BlendAllowance, checkBlendAllowance } from "../../tolerance/blendAllowance.js";
import { checkTolerance, TARGET_ROLES, type TargetRole, type Tolerance } from "../../tolerance/tolerance.js";
import { checkGrams, type Grams, MOST_GRAMS } from "../../toners/pot.js";
import { checkTonerSet, type TonerSet } from "../../toners/tonerSet.js";
import { checkFadePriors, type FadePriors } from "../fade/fadePrior.js";
import { checkPlanOptions, type PlanOptions } from "./planOptions.js";

/** A formula that the panels may have been painted with: one of the variants on hand. */
export interface Formula {
  readonly name: string;
  readonly grams: Grams;
  /** The colour of the formula freshly sprayed, where it was measured. */
  readonly readings?: readonly Reading[];
}

/** A panel as it looks today. */
export interface Panel {
  readonly name: string;
  /** An edge when absent: the stricter of the two. */
  readonly role?: TargetRole;
  /** How much of the paint this panel takes, against the others; 1 when absent. */
  readonly share?: number;
  readonly readings: readonly Reading[];
}

/** What `planHoldBack` needs: formulas, panels, how much paint is wanted, and the bench. */
export interface PlanJob {
  readonly toners: TonerSet;
  readonly viewing: Viewing;
  readonly formulas: readonly Formula[];
  /** The formula to plan with, by name; the one that explains the panels best when absent. */
  readonly formula?: string;
  readonly panels: readonly Panel[];
  /** Grams of paint for all panels together. */
  readonly wantedGrams: number;
  readonly limits?: Limits;
  readonly tolerance?: Partial<Tolerance>;
  readonly blendAllowance?: Partial<BlendAllowance>;
  readonly fadePriors?: FadePriors;
  readonly options?: Partial<PlanOptions>;
}

/** A plan's job with everything checked and every default in place. */
export interface CheckedPlanJob extends PlanJob {
  readonly panels: readonly Required<Panel>[];
  readonly limits: Limits;
  readonly tolerance: Tolerance;
  readonly blendAllowance: BlendAllowance;
  readonly fadePriors: FadePriors;
  readonly options: PlanOptions;
}

/** More than a car has, and few enough to find the fewest pots by looking at all subsets. */
const MOST_PANELS = 12;
const MOST_FORMULAS = 50;

/** Checks a whole plan; paths are relative to it, such as `panels[0].readings[0].reflectance[3]`. */
export function checkPlanJob(value: unknown): CheckedPlanJob {
  const record = checkRecord(value, "");
  const toners = checkTonerSet(record.toners, "toners");
  const { limits = {}, tolerance = {}, blendAllowance = {}, fadePriors = {}, options = {} } = record;
  const job = {
    toners,
    viewing: checkViewing(record.viewing, "viewing"),
    formulas: checkFormulas(record.formulas, toners),
    panels: checkPanels(record.panels),
    wantedGrams: checkNumber(record.wantedGrams, "wantedGrams", { min: 0, aboveMin: true, max: MOST_GRAMS }),
    limits: checkLimits(limits, "limits", toners.toners),
    tolerance: checkTolerance(tolerance, "tolerance"),
    blendAllowance: checkBlendAllowance(blendAllowance, "blendAllowance"),
    fadePriors: checkFadePriors(fadePriors, "fadePriors", toners.toners),
    options: checkPlanOptions(options, "options"),
  };
  const most = job.limits.potMaxGrams;
  if (most !== undefined && job.wantedGrams > most) {
    const reason = `${job.wantedGrams} g are more than the cup holds (potMaxGrams, ${most} g): plan one cup at a time`;
    throw new InputError("out-of-range", "wantedGrams", reason);
  }
  if (record.formula === undefined) return job;
  const names = job.formulas.map(({ name }) => name);
  return { ...job, formula: checkOneOf(record.formula, "formula", names) };
}

function checkFormulas(value: unknown, { toners }: TonerSet): readonly Formula[] {
  const formulas = Array.from(checkList(value, "formulas", { min: 1, max: MOST_FORMULAS }), (entry, i) => {
    const path = `formulas[${i}]`;
    const { name, grams, readings } = checkRecord(entry, path);
    const checked = checkGrams(grams, pathTo(path, "grams"), toners);
    if (!Object.values(checked).some((amount) => amount > 0)) {
      throw new InputError("no-pigment", pathTo(path, "grams"), "the formula is empty");
    }
    return {
      name: checkText(name, pathTo(path, "name")),
      grams: checked,
      ...(readings !== undefined && { readings: checkReadings(readings, pathTo(path, "readings")) }),
    };
  });
  refuseTwins(formulas, "formulas");
  return formulas;
}

function checkPanels(value: unknown): readonly Required<Panel>[] {
  const panels = Array.from(checkList(value, "panels", { min: 1, max: MOST_PANELS }), (entry, i) => {
    const path = `panels[${i}]`;
    const { name, role = "edge", share = 1, readings } = checkRecord(entry, path);
    return {
      name: checkText(name, pathTo(path, "name")),
      role: checkOneOf(role, pathTo(path, "role"), TARGET_ROLES),
      share: checkNumber(share, pathTo(path, "share"), { min: 0, aboveMin: true, max: 1e6 }),
      readings: checkReadings(readings, pathTo(path, "readings")),
    };
  });
  refuseTwins(panels, "panels");
  return panels;
}

function refuseTwins(named: readonly { readonly name: string }[], path: string): void {
  named.forEach(({ name }, i) => {
    if (named.findIndex((other) => other.name === name) === i) return;
    throw new InputError("duplicate", `${path}[${i}].name`, `"${name}" stands twice`);
  });
}
