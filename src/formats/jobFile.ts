import { checkText } from "../core/check.js";
import { checkJob, type Job } from "../correction/job.js";
import { checkMix, type Mix } from "../prediction/predict.js";
import { checkMixOnCard, type MixOnCard } from "../prediction/tonerDirections.js";
import type { TonerSet } from "../toners/tonerSet.js";
import { checkHeader } from "./header.js";
import { parseJson } from "./json.js";
import type { FindText } from "./readFiles.js";
import { noTexts, withReadings } from "./withReadings.js";

/** Brings the toners that a job names, such as `"toners.json"`; reading the disk is the caller's. */
export type FindToners = (name: string) => TonerSet;

/**
 * A job from the text of a `masstone/job` file. Its toners stand in the file itself or are named there and brought
 * by `findToners`; so are its readings and `findText`. Throws InputError with the place in the file.
 */
export function readJob(text: string, findToners: FindToners, findText: FindText = noTexts): Job {
  return checkJob(withReadings(withToners(text, findToners), findText));
}

/** The mix of a `masstone/job` file, which needs no card, targets or limits. */
export function readMix(text: string, findToners: FindToners): Mix {
  return checkMix(withToners(text, findToners));
}

/** The mix of a `masstone/job` file and its card where it has one; targets and limits are not looked at. */
export function readMixOnCard(text: string, findToners: FindToners, findText: FindText = noTexts): MixOnCard {
  const { targets: _, ...record } = withToners(text, findToners);
  return checkMixOnCard(withReadings(record, findText));
}

function withToners(text: string, findToners: FindToners): Readonly<Record<string, unknown>> {
  const record = checkHeader(parseJson(text), "masstone/job");
  if (typeof record.toners !== "string") return record;
  return { ...record, toners: findToners(checkText(record.toners, "toners")) };
}
