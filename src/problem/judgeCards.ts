import { type Belief, beliefOf } from "../belief/belief.js";
import { faultWords } from "../belief/faultWords.js";
import { type Judgement, judge } from "../belief/judge.js";
import type { Prior, ReadCard } from "../belief/prior.js";
import { hasOrientation } from "../belief/unknowns/spray.js";
import type { Warning } from "../core/warning.js";
import { withoutTail } from "../numeric/scalar/withoutTail.js";

/** The verdict on the last card, and the belief that the accepted ones leave. */
interface JudgedCards {
  readonly judgement: Judgement;
  /** Names of the cards of the belief, in their order. */
  readonly believed: readonly string[];
  readonly ofCards: Belief;
  /** Where two cards took the place of those before. */
  readonly outvoted?: Outvoted;
}

/** Names of two cards of one pot, of those that they outvoted, and how the second was judged by these. */
interface Outvoted {
  readonly by: readonly string[];
  readonly cards: readonly string[];
  readonly judgement: Judgement;
}

/**
 * Judges every card in turn. Two doubted ones in a row of one pot that are accepted by themselves take the place of all
 * before: whatever was wrong, the pot is as they show it; but not where the card of another pot would explain them, which
 * may have been read twice. Each has its part of what is left of the work; with none left earlier cards are passed over.
 */
export function judgeCards(
  prior: Prior,
  read: readonly ReadCard[],
  cards: readonly { readonly name: string }[],
): JudgedCards {
  let believed: readonly ReadCard[] = [];
  let names: readonly string[] = [];
  let outvoted: Outvoted | undefined;
  let wasDoubted = false;
  const all = read.flatMap((card, c): readonly JudgedCards[] => {
    if (c < read.length - 1 && prior.work?.isSpent()) return [];
    const own = { ...prior, ...(prior.work && { work: prior.work.share(1 / (read.length - c)) }) };
    const before = believed[believed.length - 1]?.grams;
    const together = [...believed, card];
    const isEffect = hasOrientation(
      prior.model,
      [...card.grams.keys()].filter((j) => together.some(({ grams }) => grams[j] > 0)),
    );
    // What another spraying does is known too roughly for one card to judge the next: each is judged by itself, and before
    // the belief of all, which may take what is left of the work.
    const alone = isEffect && believed.length > 0 ? beliefOf(own, [card]) : undefined;
    const asked = {
      poured: before ? card.grams.map((amount, j) => amount - before[j]) : card.grams,
      others: read.slice(0, c).flatMap(({ grams }, o) => {
        const isOther = grams.some((amount, j) => amount !== card.grams[j]);
        return isOther ? [{ name: cards[o].name, grams }] : [];
      }),
    };
    const ofAlone = alone && judge(alone, asked);
    const belief = beliefOf(own, together);
    const judgement = ofAlone ?? judge(belief, asked);
    const known = [...names, cards[c].name];
    const isDoubted = judgement.verdict === "doubted";
    const isRepeated = isDoubted && wasDoubted && names.length > 0 && isOfPot(card, read[c - 1].grams);
    wasDoubted = isDoubted;
    const isSwapped = judgement.explanations.some(({ fault }) => fault.kind === "swapped-card");
    if (isRepeated && !isSwapped) {
      const two = judgeCards(own, read.slice(c - 1, c + 1), cards.slice(c - 1, c + 1));
      if (two.judgement.verdict === "believed" && two.believed.length === 2) {
        outvoted = { by: two.believed, cards: names, judgement };
        believed = read.slice(c - 1, c + 1);
        names = two.believed;
        wasDoubted = false;
        return [{ ...two, outvoted }];
      }
    }
    if (judgement.verdict === "believed") {
      believed = together;
      names = known;
    }
    return [{ judgement, believed: known, ofCards: belief, ...(outvoted && { outvoted }) }];
  });
  return all[all.length - 1];
}

const isOfPot = ({ grams }: ReadCard, pot: Float64Array): boolean =>
  grams.every((amount, j) => amount === pot[j]);

/** Faults that a message names. */
const MOST_NAMED = 2;

/** What the likeliest faults are in words, after a semicolon; nothing where none is named. */
function fitting({ explanations }: Judgement): string {
  const style = { mass: (grams: number) => `${withoutTail(grams)} g`, name: (id: string) => id };
  const words = explanations.slice(0, MOST_NAMED).map(({ fault }) => faultWords(fault, style));
  return words.length > 0 ? `; it fits, likeliest first: ${words.join("; ")}` : "";
}

/** What is to be said of a card that is not believed, and of cards that were outvoted. */
export function cardWarnings(
  { judgement, outvoted }: Pick<JudgedCards, "judgement" | "outvoted">,
  path: string,
): readonly Warning[] {
  const warnings: Warning[] = [];
  if (outvoted) {
    const { by, cards } = outvoted;
    const message = `${by.join(" and ")} are of the same pot and agree, but do not go with ${cards.join(", ")}, which ${cards.length > 1 ? "are" : "is"} left out${fitting(outvoted.judgement)}`;
    warnings.push({ code: "cards-outvoted", message, path });
  }
  if (judgement.verdict === "doubted") {
    const message = `this card was not sprayed from this pot, or one of the two is noted wrongly${fitting(judgement)}`;
    warnings.push({ code: "card-not-from-pot", message, path });
  }
  return warnings;
}
