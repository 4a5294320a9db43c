import { checkList, checkNumber, checkRecord, checkText } from "../core/check.js";
import type { RecordEntry } from "./recordEntry.js";

/** Panels that are painted one colour, and the paint for them. */
export interface Stage {
  readonly panels: readonly string[];
  readonly sprayGrams: number;
  /** What the pot is to hold then, with what later panels are painted with. */
  readonly potGrams: number;
}

/** What remains of the pours that were asked for. */
export interface Asked {
  readonly grams: Readonly<Record<string, number>>;
  /** To be poured off before. */
  readonly gramsOff: number;
  /** Into another pot. */
  readonly isNewPot: boolean;
}

export const NOTHING_ASKED: Asked = { grams: {}, gramsOff: 0, isNewPot: false };

/** What of a planned pot counts for where a job stands. */
export interface PlannedPot {
  readonly pourNow: Readonly<Record<string, number>>;
  readonly stages: readonly Stage[];
}

/** Whether all panels of a colour are painted. */
const isPainted = ({ panels }: Stage, sprayed: readonly string[]): boolean =>
  panels.every((panel) => sprayed.includes(panel));

/** The colour that is painted next; none where all are. */
export const nextStage = (stages: readonly Stage[], sprayed: readonly string[]): Stage | undefined =>
  stages.find((stage) => !isPainted(stage, sprayed));

/** What the next planned pot begins with, once all panels of those before are painted and none of its own. */
export function nextPot(planned: readonly PlannedPot[] = [], sprayed: readonly string[]): Asked | undefined {
  const at = planned.findIndex(({ stages }) => stages.some((stage) => !isPainted(stage, sprayed)));
  if (at < 1) return undefined;
  const { stages, pourNow } = planned[at];
  if (stages.some((stage) => isPainted(stage, sprayed))) return undefined;
  return { grams: pourNow, gramsOff: 0, isNewPot: true };
}

/** The pots of a plan read from a file; unchecked input. */
export function plannedPots({ pots }: { readonly pots: unknown }, path: string): readonly PlannedPot[] {
  return Array.from(checkList(pots, `${path}: pots`, { min: 1 }), (pot, i) => {
    const place = `${path}: pots[${i}]`;
    const { pourNow, stages } = checkRecord(pot, place);
    return {
      pourNow: gramsIn(pourNow, `${place}.pourNow`),
      stages: Array.from(checkList(stages, `${place}.stages`), (stage, k) => {
        const at = `${place}.stages[${k}]`;
        const { panels, sprayGrams, potGrams } = checkRecord(stage, at);
        return {
          panels: Array.from(checkList(panels, `${at}.panels`), (panel) => checkText(panel, `${at}.panels`)),
          sprayGrams: checkNumber(sprayGrams, `${at}.sprayGrams`, { min: 0 }),
          potGrams: checkNumber(potGrams, `${at}.potGrams`, { min: 0 }),
        };
      }),
    };
  });
}

/** The pours of an answer read from a file; unchecked input. */
export function askedBy({ answer, step }: Extract<RecordEntry, { kind: "answer" }>, path: string): Asked {
  if (step === undefined) return { ...NOTHING_ASKED, grams: gramsIn(answer.additions, `${path}: additions`) };
  const { grams = {}, gramsOff = 0 } = step;
  const asked = Object.fromEntries(Object.entries(grams).filter(([, amount]) => amount > 0));
  return { grams: asked, gramsOff, isNewPot: step.step === "new-pot" };
}

/** Grams by toner id of a list of pours. */
function gramsIn(list: unknown, path: string): Readonly<Record<string, number>> {
  return Object.fromEntries(
    Array.from(checkList(list, path), (pour, i) => {
      const place = `${path}[${i}]`;
      const { toner, grams } = checkRecord(pour, place);
      return [checkText(toner, `${place}.toner`), checkNumber(grams, `${place}.grams`, { min: 0 })];
    }),
  );
}
