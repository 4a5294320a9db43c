import { isMeasured } from "../scene/card.js";
import { type CheckedJob, cardsOf } from "./job.js";

/** Whether the match rests on an eye: a target of weight above 0, or the last card, was compared and not measured. */
export function isByEye(job: CheckedJob): boolean {
  const cards = cardsOf(job);
  return (
    !isMeasured(cards[cards.length - 1]) ||
    job.targets.some((target) => target.weight > 0 && !isMeasured(target))
  );
}
