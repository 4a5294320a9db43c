import { DAY } from "../../core/day.js";
import { InputError } from "../../core/InputError.js";
import { list } from "../../core/shape/list.js";
import { map } from "../../core/shape/map.js";
import { optional } from "../../core/shape/optional.js";
import { type Noted, record } from "../../core/shape/record.js";
import { text } from "../../core/shape/text.js";
import { checkIsRead, type Unread } from "../../scene/card.js";
import {
  type CheckedColourReading,
  COLOURS,
  type ColourReading,
} from "../../scene/readings/colourReading.js";
import { type Reading, SOME_READINGS } from "../../surface/reading.js";
import { checkPot, checkToners, GRAMS, type Grams } from "../../toners/pot.js";
import { TONER_SET, type TonerSet } from "../../toners/tonerSet.js";
import { LEARNING_OPTIONS, type LearningOptions, learningOptionsFor } from "./learningOptions.js";

/** A card and what had been poured, as weighed, when it was sprayed. */
export interface PotCard extends Noted {
  readonly name: string;
  readonly pot: Grams;
  /** Spectra; an empty list where there are `colours` alone. */
  readonly readings: readonly Reading[];
  /** Colours without spectra. */
  readonly colours?: readonly ColourReading[];
}

/** The cards of one pot, in the order in which they were sprayed. */
export interface PotCards extends Noted {
  readonly name: string;
  /** As 2026-03-31. */
  readonly date?: string;
  /** Which can of a toner was used, by toner id; another than before is a new can. */
  readonly cans?: Readonly<Record<string, string>>;
  readonly cards: readonly PotCard[];
}

/** What strengths are learnt from: pots in the order in which they were mixed. */
export interface LearningJob extends Noted {
  readonly toners: TonerSet;
  readonly pots: readonly PotCards[];
  readonly options?: Partial<LearningOptions>;
}

/** A card with every default in place. */
interface CheckedPotCard extends PotCard {
  readonly colours: readonly CheckedColourReading[];
}

/** Cards of one pot with every default in place. */
export interface CheckedPotCards extends PotCards {
  readonly cards: readonly CheckedPotCard[];
}

/** A learning job with everything checked and every default in place. */
export interface CheckedLearningJob extends LearningJob {
  readonly pots: readonly CheckedPotCards[];
  readonly options: LearningOptions;
}

/** A learning job whose parts are checked, but not yet against one another. */
type LearningJobByItself = Omit<CheckedLearningJob, "options"> & Pick<LearningJob, "options">;

/** As they may be given: cards may leave their spectra out. */
type GivenPotCards = Omit<PotCards, "cards"> & { readonly cards: readonly Unread<PotCard>[] };
type LearningJobGiven = Omit<LearningJob, "pots"> & { readonly pots: readonly GivenPotCards[] };

const POT_CARDS = record<CheckedPotCards, GivenPotCards>({
  name: text(),
  date: optional(DAY),
  cans: optional(map(text())),
  cards: list(
    record<CheckedPotCard, Unread<PotCard>>({
      name: text(),
      pot: GRAMS,
      readings: optional(SOME_READINGS, []),
      colours: optional(COLOURS, []),
    }),
    { min: 1, max: 100 },
  ),
});

/** The shape of a learning job; `checkLearningJob` also checks that its parts fit one another. */
const LEARNING_JOB = record<LearningJobByItself, LearningJobGiven>({
  toners: TONER_SET,
  pots: list(POT_CARDS, { min: 1 }),
  options: optional(LEARNING_OPTIONS),
});

/** Checks everything that `learnStrengths` is given; no pot teaches twice, and days may not run backwards. */
export function checkLearningJob(value: unknown): CheckedLearningJob {
  const job = LEARNING_JOB.check(value, "");
  const { toners, learnt } = job.toners;
  const known = new Set(learnt?.pots);
  let last = learnt?.date;
  job.pots.forEach(({ name, date, cans = {}, cards }, p) => {
    const path = `pots[${p}]`;
    checkToners(cans, `${path}.cans`, toners);
    cards.forEach((card, c) => {
      checkIsRead(card, `${path}.cards[${c}]`);
      checkPot(card.pot, `${path}.cards[${c}].pot`, toners);
    });
    if (known.has(name)) {
      const reason = `"${name}" was learnt from already; one pot teaches once`;
      throw new InputError("duplicate", `${path}.name`, reason);
    }
    known.add(name);
    if (date !== undefined && last !== undefined && date < last) {
      const reason = `${date} comes after ${last}: days must not run back`;
      throw new InputError("out-of-range", `${path}.date`, reason);
    }
    last = date ?? last;
  });
  return { ...job, options: learningOptionsFor(job.toners, job.options) };
}
