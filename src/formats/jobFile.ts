import { checkText } from "../core/check.js";
import { InputError } from "../core/InputError.js";
import { extended } from "../core/shape/extended.js";
import { list } from "../core/shape/list.js";
import { nameOr } from "../core/shape/nameOr.js";
import { optional } from "../core/shape/optional.js";
import { rule } from "../core/shape/rule.js";
import { checkMix, type Mix } from "../prediction/predict.js";
import { checkMixOnCard, type MixOnCard } from "../prediction/tonerDirections.js";
import {
  CARD_COUNT,
  type CheckedTarget,
  checkJob,
  JOB,
  JOB_CARD,
  type Job,
  type JobByItself,
  type JobCard,
  TARGET,
  TARGET_COUNT,
  type Target,
} from "../problem/job.js";
import { CARD, type Card } from "../scene/card.js";
import { type Reading, SOME_READINGS } from "../surface/reading.js";
import { TONER_SET, type TonerSet } from "../toners/tonerSet.js";
import { checkHeader } from "./header.js";
import { parseJson } from "./json.js";
import { FILES_OF_READINGS, type FileOfReadings, type FindText } from "./readFiles.js";
import { noTexts, withReadings } from "./withReadings.js";

/** A job as its file has it. `predict` needs of it no card and no targets. */
export interface JobFile extends Omit<Job, "toners" | "card" | "cards" | "targets"> {
  /** Name of a toner file beside the job, or the toners themselves. */
  readonly toners: string | TonerSet;
  /** Files of readings beside this one: of the cards and of the targets that have no `readings` of their own. */
  readonly files?: readonly FileOfReadings[];
  /** The card of the pot as it is; or `cards`, one of the two. */
  readonly card?: CardInFile;
  /** All cards of this pot in the order of spraying; the last one is corrected from, all are learnt from. */
  readonly cards?: readonly JobCardInFile[];
  readonly targets?: readonly TargetInFile[];
}

/** A card whose readings may stand in one of the files. */
export interface CardInFile extends Omit<Card, "readings"> {
  /** In `files` by the card's name, or `card`, when absent. */
  readonly readings?: readonly Reading[];
}

/** One of several cards whose readings may stand in one of the files. */
export interface JobCardInFile extends Omit<JobCard, "readings"> {
  /** In `files` by the card's name, or `card` and its place from 1 on, when absent. */
  readonly readings?: readonly Reading[];
}

/** A target whose readings may stand in one of the files. */
export interface TargetInFile extends Omit<Target, "readings"> {
  /** In `files` by the target's name when absent. */
  readonly readings?: readonly Reading[];
}

type CheckedFile = Omit<JobFile, "targets" | "limits" | "objective" | "tolerance"> &
  Pick<JobByItself, "limits" | "objective" | "tolerance"> & {
    readonly targets?: readonly (Omit<CheckedTarget, "readings"> & Pick<TargetInFile, "readings">)[];
  };

const TARGET_IN_FILE = extended<NonNullable<CheckedFile["targets"]>[number], TargetInFile, CheckedTarget>(
  TARGET,
  {
    readings: optional(SOME_READINGS),
  },
);

/** What a schema says of targets that stand in no file: they were read, measured or looked at. */
const SEEN = {
  type: "array",
  items: {
    type: "object",
    anyOf: [
      { required: ["readings"], properties: { readings: {} } },
      { required: ["colours"], properties: { colours: {} } },
      { required: ["comparisons"], properties: { comparisons: {} } },
    ],
  },
} as const;

/** The file of a job. */
export const JOB_FILE = rule(
  extended<CheckedFile, JobFile, JobByItself>(JOB, {
    toners: nameOr(TONER_SET),
    files: optional(FILES_OF_READINGS),
    card: optional(extended<CardInFile, CardInFile, Card>(CARD, { readings: optional(SOME_READINGS) })),
    cards: optional(
      list(
        extended<JobCardInFile, JobCardInFile, JobCard>(JOB_CARD, { readings: optional(SOME_READINGS) }),
        CARD_COUNT,
      ),
    ),
    targets: optional(list(TARGET_IN_FILE, TARGET_COUNT)),
  }),
  readingsStandSomewhere,
  {
    if: { not: { required: ["files"], properties: { files: {} } } },
    // biome-ignore lint/suspicious/noThenProperty: the word of JSON Schema.
    then: { properties: { targets: SEEN } },
    not: { required: ["card", "cards"], properties: { card: {}, cards: {} } },
  },
);

/** Whether a card had to be read depends on the whole job: an eye may have compared it with a panel. */
function readingsStandSomewhere({ files, targets = [] }: CheckedFile): void {
  if (files !== undefined) return;
  const without = targets.findIndex(
    ({ readings, colours, comparisons }) =>
      readings === undefined && colours.length === 0 && comparisons.length === 0,
  );
  if (without < 0) return;
  throw new InputError("missing", `targets[${without}].readings`, "a list is needed here, or files");
}

/** Returns the toners that a job names, such as `"toners.json"`; the caller reads the disk. */
export type FindToners = (name: string) => TonerSet;

/**
 * A job from the text of a `masstone/job` file. Its toners stand in the file itself or are named there and brought
 * by `findToners`; so are its readings and `findText`. Throws InputError with the place in the file.
 */
export function readJob(text: string, findToners: FindToners, findText: FindText = noTexts): Job {
  const file = JOB_FILE.check(checkHeader(parseJson(text), "masstone/job"), "");
  return checkJob(withReadings(withToners({ ...file }, findToners), findText));
}

/** The mix of a `masstone/job` file, which needs no card, targets or limits. */
export function readMix(text: string, findToners: FindToners): Mix {
  return checkMix(withToners(checkHeader(parseJson(text), "masstone/job"), findToners));
}

/** The mix of a `masstone/job` file and its card where it has one; targets and limits are not looked at. */
export function readMixOnCard(text: string, findToners: FindToners, findText: FindText = noTexts): MixOnCard {
  const { targets: _, ...record } = withToners(checkHeader(parseJson(text), "masstone/job"), findToners);
  return checkMixOnCard(withReadings(record, findText));
}

function withToners(
  record: Readonly<Record<string, unknown>>,
  findToners: FindToners,
): Readonly<Record<string, unknown>> {
  if (typeof record.toners !== "string") return record;
  return { ...record, toners: findToners(checkText(record.toners, "toners")) };
}
