import { BELIEF_SIZES_SHAPE, type BeliefSizes, beliefSizesOf } from "../belief/beliefSizes.js";
import type { EyeGain } from "../belief/unknowns/instrument.js";
import { VIEWING, type Viewing } from "../colorimetry/viewing.js";
import { checkOneOf, pathTo } from "../core/check.js";
import { InputError } from "../core/InputError.js";
import { extended } from "../core/shape/extended.js";
import { list } from "../core/shape/list.js";
import { map } from "../core/shape/map.js";
import { number } from "../core/shape/number.js";
import { oneOf } from "../core/shape/oneOf.js";
import { optional } from "../core/shape/optional.js";
import { type Noted, record } from "../core/shape/record.js";
import { rule } from "../core/shape/rule.js";
import { text } from "../core/shape/text.js";
import { CARD, type Card, type CheckedCard, checkIsRead, type Unread } from "../scene/card.js";
import type { ReadSurface } from "../scene/createScene.js";
import { type CheckedColourReading, COLOURS, type ColourReading } from "../scene/readings/colourReading.js";
import { COMPARISONS, type Comparison } from "../scene/readings/comparison.js";
import { type Reading, SOME_READINGS } from "../surface/reading.js";
import {
  TARGET_ROLES,
  type TargetRole,
  TOLERANCE,
  TOLERANCE_DEFAULTS,
  type Tolerance,
} from "../tolerance/tolerance.js";
import { checkGrams, checkPot, GRAMS, type Grams, gramsInOrder } from "../toners/pot.js";
import { TONER_SET, type TonerSet } from "../toners/tonerSet.js";
import { checkSize } from "./checkSize.js";
import { CORRECTION_OBJECTIVES, type CorrectionObjective } from "./correctionObjective.js";
import { checkLimits, LIMITS, type Limits } from "./limits.js";
import { STEP_PRICES, STEP_PRICES_SHAPE, type StepPrices } from "./stepPrices.js";
import { TARGET_ANGLES, type TargetAngles } from "./targetAngles.js";

/** How coarse and sparkling a panel looks beside the card: the word of an eye, never predicted. */
export const TEXTURES = ["same", "coarser", "finer"] as const;
/** One of `TEXTURES`. */
export type Texture = (typeof TEXTURES)[number];

/** A panel to match, as read. */
export interface Target extends Noted {
  /** No two of a job alike. */
  readonly name: string;
  /** The stricter of the two when absent. */
  readonly role?: TargetRole;
  /**
   * Share in the compromise between several targets. 0: told how far off it will be, but nothing is poured for it and
   * it decides no status; one at least must weigh more.
   */
  readonly weight?: number;
  /** Spectra; an empty list where there are `colours` or `comparisons` alone. */
  readonly readings: readonly Reading[];
  /** Colours without spectra. */
  readonly colours?: readonly ColourReading[];
  /** What an eye saw when the panel was held beside a card. */
  readonly comparisons?: readonly Comparison[];
  /** What the panel was painted with, where that is known: it tells what no colour says of its spectrum. */
  readonly formula?: Grams;
  /** Beside the card; "same" when absent. Unlike textures are another flake: nothing is tinted then. */
  readonly texture?: Texture;
  /** Angles with a tolerance or weight of their own; when absent all count alike, but for flake of known orientation. */
  readonly angles?: TargetAngles;
}

/** A card of the pot and what the scale had shown when it was sprayed. */
export interface JobCard extends Card {
  /** What was in the pot; of the last card the pot of the job when absent. */
  readonly pot?: Grams;
}

/** One correction to work out: the pot, the card or cards sprayed from it, and what it should look like. */
export interface Job extends Noted {
  /** Toners to pour, and those in the pot. */
  readonly toners: TonerSet;
  readonly viewing: Viewing;
  /** What is in the pot now, and what the card was sprayed from. */
  readonly pot: Grams;
  /** The card of the pot as it is; or `cards`, one of the two. */
  readonly card?: Card;
  /** All cards of this pot in the order of spraying; the last one is corrected from, all are learnt from. */
  readonly cards?: readonly JobCard[];
  readonly targets: readonly Target[];
  readonly limits?: Limits;
  /** What is made small; `minimax` the worst edge, each ΔE00 against its allowance. */
  readonly objective?: CorrectionObjective;
  readonly tolerance?: Partial<Tolerance>;
  /** Eyes that are known from earlier jobs, by the names in `comparisons`; an answer by eye has them as they are known now. */
  readonly observers?: Readonly<Record<string, EyeGain>>;
  /** How far cans, paint, cards and instruments may be off, where a shop knows better than the toner set. */
  readonly belief?: Partial<BeliefSizes>;
  /** What each step costs, for the step that is advised next; those that are absent keep their default. */
  readonly prices?: Partial<StepPrices>;
}

/** A target with every default in place. */
export interface CheckedTarget extends Target {
  readonly role: TargetRole;
  readonly weight: number;
  readonly colours: readonly CheckedColourReading[];
  readonly comparisons: readonly Comparison[];
  readonly texture: Texture;
}

/** A card of a list of them with every default in place. */
export interface CheckedJobCard extends CheckedCard {
  readonly pot?: Grams;
}

/** A job with everything checked and every default in place. */
export interface CheckedJob extends Job {
  readonly card?: CheckedCard;
  readonly cards?: readonly CheckedJobCard[];
  readonly targets: readonly CheckedTarget[];
  readonly limits: Limits;
  readonly objective: CorrectionObjective;
  readonly tolerance: Tolerance;
  readonly belief: BeliefSizes;
  readonly prices: StepPrices;
}

/** A job whose parts are checked, but not yet against one another. */
export type JobByItself = Omit<CheckedJob, "belief"> & Pick<Job, "belief">;

/** A panel to match. */
export const TARGET = record<CheckedTarget, Unread<Target>>({
  name: text(),
  role: optional(oneOf(TARGET_ROLES), "edge"),
  weight: optional(number({ min: 0, max: 1e6 }), 1),
  readings: optional(SOME_READINGS, []),
  colours: optional(COLOURS, []),
  comparisons: optional(COMPARISONS, []),
  formula: optional(GRAMS),
  texture: optional(oneOf(TEXTURES), "same"),
  angles: optional(TARGET_ANGLES),
});

/** How many panels a job may have. */
export const TARGET_COUNT = { min: 1, max: 100, unique: "name" } as const;

/** A card of a list of them. */
export const JOB_CARD = extended<CheckedJobCard, Unread<JobCard>, CheckedCard>(CARD, {
  pot: optional(GRAMS),
});

/** How many cards a job may have. */
export const CARD_COUNT = { min: 1, max: 100 } as const;

/** The shape of a job; `checkJob` also checks that its parts fit one another. */
export const JOB = record<JobByItself, Job>(
  {
    toners: TONER_SET,
    viewing: VIEWING,
    pot: GRAMS,
    card: optional(CARD),
    cards: optional(list(JOB_CARD, CARD_COUNT)),
    targets: rule(list(TARGET, TARGET_COUNT), someCount),
    limits: optional(LIMITS, {}),
    objective: optional(oneOf(CORRECTION_OBJECTIVES), "least-squares"),
    tolerance: optional(TOLERANCE, TOLERANCE_DEFAULTS),
    observers: optional(
      map(record<EyeGain>({ logGain: number({ min: -2, max: 2 }), sd: number({ min: 0, max: 2 }) })),
    ),
    belief: optional(BELIEF_SIZES_SHAPE),
    prices: optional(STEP_PRICES_SHAPE, STEP_PRICES),
  },
  { format: "masstone/job" },
);

/** Checks a whole job; paths are relative to it, such as `targets[0].readings[0].reflectance[3]`. */
export function checkJob(value: unknown): CheckedJob {
  const given = JOB.check(value, "");
  const { toners } = given.toners;
  checkPot(given.pot, "pot", toners);
  const job = { ...given, ...checkCards(given), belief: { ...beliefSizesOf(given.toners), ...given.belief } };
  checkLimits(job.limits, "limits", toners);
  checkSeen(job);
  checkSize(job);
  return job;
}

/** Every card and target was seen somehow, and every comparison is with a card of the job. */
function checkSeen(job: CheckedJob): void {
  const cards = cardsOf(job);
  const compared = new Set(job.targets.flatMap(({ comparisons }) => comparisons.map(({ card }) => card)));
  for (const card of cards) {
    if (!compared.has(card.name)) checkIsRead(card, card.path.replace(".readings", ""));
  }
  job.targets.forEach((target, t) => {
    const path = `targets[${t}]`;
    if (target.comparisons.length === 0) checkIsRead(target, path);
    if (target.formula) checkPot(target.formula, `${path}.formula`, job.toners.toners);
    target.comparisons.forEach(({ card }, c) => {
      const names = cards.map(({ name }) => name);
      checkOneOf(card, `${path}.comparisons[${c}].card`, names);
    });
  });
}

/** `card` or `cards`, whichever was given; every card of the list with its pot. */
function checkCards({
  card,
  cards,
  pot,
  toners: { toners },
}: JobByItself): Pick<CheckedJob, "card" | "cards"> {
  if (cards === undefined) return { card: CARD.check(card, "card") };
  if (card !== undefined) {
    throw new InputError("duplicate", "card", "the cards stand in `cards` already; give one of the two");
  }
  const now = gramsInOrder(pot, toners);
  return {
    cards: cards.map((one, i) => {
      const path = pathTo(`cards[${i}]`, "pot");
      const isLast = i === cards.length - 1;
      const sprayedFrom = one.pot === undefined && isLast ? pot : checkGrams(one.pot, path, toners);
      const then = gramsInOrder(sprayedFrom, toners);
      if (isLast && now.some((grams, j) => grams !== then[j])) {
        const reason =
          "the last card must be sprayed from the pot as it is; leave its pot out, or read a card of it";
        throw new InputError("out-of-range", path, reason);
      }
      return { ...one, pot: sprayedFrom };
    }),
  };
}

/** All cards of a checked job with their names, pots and places in it, in the order of spraying. */
export function cardsOf({
  card,
  cards = [],
  pot,
}: CheckedJob): readonly (CheckedJobCard & Required<Pick<JobCard, "name" | "pot">> & ReadSurface)[] {
  if (card) return [{ name: "card 1", pot, ...card, path: "card.readings" }];
  return cards.map((one, i) => ({ name: `card ${i + 1}`, pot, ...one, path: `cards[${i}].readings` }));
}

function someCount(targets: readonly { readonly weight: number }[], path: string): void {
  if (targets.some(({ weight }) => weight > 0)) return;
  throw new InputError("out-of-range", path, "every weight is 0; at least one target must count");
}
