import { type Belief, beliefOf } from "../belief/belief.js";
import { faultWords } from "../belief/faultWords.js";
import { type Judgement, judge } from "../belief/judge.js";
import type { Prior, ReadCard } from "../belief/prior.js";
import { hasOrientation } from "../belief/unknowns/spray.js";
import type { Warning } from "../core/warning.js";
import { withoutTail } from "../numeric/scalar/withoutTail.js";

/**
 * Judges every card in turn: the verdict on the last one, and the belief that the accepted cards leave. Each has its part of
 * what is left of the work; with none left earlier cards are passed over.
 */
export function judgeCards(
  prior: Prior,
  read: readonly ReadCard[],
  cards: readonly { readonly name: string }[],
): {
  readonly judgement: Judgement;
  /** Names of the cards of the belief, in their order. */
  readonly believed: readonly string[];
  readonly ofCards: Belief;
} {
  const believed: ReadCard[] = [];
  const names: string[] = [];
  const all = read.flatMap((card, c) => {
    if (c < read.length - 1 && prior.work?.isSpent()) return [];
    const own = { ...prior, ...(prior.work && { work: prior.work.share(1 / (read.length - c)) }) };
    const before = read[c - 1]?.grams;
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
    if (judgement.verdict === "believed") {
      believed.push(card);
      names.push(cards[c].name);
    }
    return [{ judgement, believed: known, ofCards: belief }];
  });
  return all[all.length - 1];
}

/** Faults that a message names. */
const MOST_NAMED = 2;

/** What is to be said of a card that is not believed. */
export function cardWarnings({ verdict, explanations }: Judgement, path: string): readonly Warning[] {
  if (verdict !== "doubted") return [];
  const style = { mass: (grams: number) => `${withoutTail(grams)} g`, name: (id: string) => id };
  const words = explanations.slice(0, MOST_NAMED).map(({ fault }) => faultWords(fault, style));
  const why = words.length > 0 ? `; it fits, likeliest first: ${words.join("; ")}` : "";
  const message = `this card was not sprayed from this pot, or one of the two is noted wrongly${why}`;
  return [{ code: "card-not-from-pot", message, path }];
}
