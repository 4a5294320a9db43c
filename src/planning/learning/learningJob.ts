import { checkList, checkRecord, checkText, pathTo } from "../../core/check.js";
import { checkDay } from "../../core/day.js";
import { InputError } from "../../core/InputError.js";
import { checkReadings, type Reading } from "../../surface/reading.js";
import { checkGrams, type Grams } from "../../toners/pot.js";
import { checkTonerSet, type TonerSet, tonerIndex } from "../../toners/tonerSet.js";
import { checkLearningOptions, type LearningOptions } from "./learningOptions.js";

/** A card and what had been poured, as weighed, when it was sprayed. */
export interface PotCard {
  readonly name: string;
  readonly pot: Grams;
  readonly readings: readonly Reading[];
}

/** The cards of one pot, in the order in which they were sprayed. */
export interface PotCards {
  readonly name: string;
  /** As 2026-03-31. */
  readonly date?: string;
  /** Which can of a toner was used, by toner id; another than before is a new can. */
  readonly cans?: Readonly<Record<string, string>>;
  readonly cards: readonly PotCard[];
}

/** What strengths are learnt from: pots in the order in which they were mixed. */
export interface LearningJob {
  readonly toners: TonerSet;
  readonly pots: readonly PotCards[];
  readonly options?: Partial<LearningOptions>;
}

/** A learning job with everything checked and every default in place. */
export interface CheckedLearningJob extends LearningJob {
  readonly options: LearningOptions;
}

/** Checks everything that `learnStrengths` is given; days may not run backwards. */
export function checkLearningJob(value: unknown): CheckedLearningJob {
  const record = checkRecord(value, "");
  const toners = checkTonerSet(record.toners, "toners");
  const pots = Array.from(checkList(record.pots, "pots", { min: 1 }), (entry, p) =>
    checkPotCards(entry, `pots[${p}]`, toners),
  );
  const known = new Set(toners.learnt?.pots);
  pots.forEach(({ name }, p) => {
    if (known.has(name)) {
      throw new InputError(
        "duplicate",
        `pots[${p}].name`,
        `"${name}" was learnt from already; one pot teaches once`,
      );
    }
    known.add(name);
  });
  let last = toners.learnt?.date;
  pots.forEach(({ date }, p) => {
    if (date !== undefined && last !== undefined && date < last) {
      throw new InputError(
        "out-of-range",
        `pots[${p}].date`,
        `${date} comes after ${last}: days must not run back`,
      );
    }
    last = date ?? last;
  });
  return { toners, pots, options: checkLearningOptions(record.options ?? {}, "options", toners) };
}

function checkPotCards(value: unknown, path: string, { toners }: TonerSet): PotCards {
  const { name, date, cans, cards } = checkRecord(value, path);
  const cansPath = pathTo(path, "cans");
  const list = checkList(cards, pathTo(path, "cards"), { min: 1, max: 100 });
  const checked = Array.from(list, (entry, c) => {
    const place = `${pathTo(path, "cards")}[${c}]`;
    const card = checkRecord(entry, place);
    const pot = checkGrams(card.pot, pathTo(place, "pot"), toners);
    if (!Object.values(pot).some((grams) => grams > 0)) {
      throw new InputError(
        "no-pigment",
        pathTo(place, "pot"),
        "the pot is empty; a card was sprayed from something",
      );
    }
    return {
      name: checkText(card.name, pathTo(place, "name")),
      pot,
      readings: checkReadings(card.readings, pathTo(place, "readings")),
    };
  });
  return {
    name: checkText(name, pathTo(path, "name")),
    ...(date !== undefined && { date: checkDay(date, pathTo(path, "date")) }),
    ...(cans !== undefined && {
      cans: Object.fromEntries(
        Object.entries(checkRecord(cans, cansPath)).map(([id, can]) => {
          tonerIndex(toners, id, pathTo(cansPath, id));
          return [id, checkText(can, pathTo(cansPath, id))];
        }),
      ),
    }),
    cards: checked,
  };
}
