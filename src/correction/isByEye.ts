import { type CheckedJob, type CheckedTarget, cardsOf } from "./job.js";

/** Whether the match rests on an eye: a target that counts, or the last card, was not measured. */
export function isByEye(job: CheckedJob): boolean {
  const cards = cardsOf(job);
  const isUnmeasured = ({ readings, colours }: Pick<CheckedTarget, "readings" | "colours">) =>
    readings.length === 0 && colours.length === 0;
  return (
    isUnmeasured(cards[cards.length - 1]) ||
    job.targets.some((target) => target.weight > 0 && isUnmeasured(target))
  );
}
