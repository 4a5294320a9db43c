import type { Explanation } from "../../belief/fault.js";
import type { CardVerdictWord } from "../../belief/judge.js";
import type { Warning } from "../../core/warning.js";
import type { TonerSet } from "../../toners/tonerSet.js";

/** What is believed of the can of one toner, before and after all cards. */
export interface StrengthLearnt {
  readonly toner: string;
  readonly can?: string;
  readonly strengthBefore: number;
  readonly sdBefore: number;
  readonly strength: number;
  /** Sd of ln strength. */
  readonly sd: number;
  /** The same against the last believed pot as a whole, which is all that an opaque card can show. */
  readonly sdInPot?: number;
}

/** What was believed of one toner in the pot before a card and after it; sd of ln strength against the pot. */
export interface CardBelief {
  readonly toner: string;
  readonly strengthBefore: number;
  readonly sdBefore: number;
  readonly strength: number;
  readonly sd: number;
}

/** One card: whether it is believed, what speaks against it, what it taught. */
export interface CardVerdict {
  readonly pot: string;
  readonly card: string;
  /** `open`: the work allowed did not suffice to tell. */
  readonly verdict: CardVerdictWord;
  /** Square of how far the card is from what was expected of it, in sd, over all its bands. */
  readonly chiSquare: number;
  readonly degreesOfFreedom: number;
  /** Share of sound cards that are further from what is expected. */
  readonly tail: number;
  /** How probable it is that nothing is wrong with the card and the pours before it. */
  readonly soundProbability: number;
  /** The likeliest first. */
  readonly explanations: readonly Explanation[];
  /** What was believed of each toner in the pot before and after this card. */
  readonly beliefs: readonly CardBelief[];
  /** Sd of ln strength in the pot before and after this card, of the toners whose sd it made smaller by a tenth. */
  readonly taught: readonly { readonly toner: string; readonly sdBefore: number; readonly sd: number }[];
}

/** The answer of `learnStrengths`. */
export interface Learning {
  readonly format: "masstone/learning";
  readonly version: 1;
  /** In the order of the toner set. */
  readonly strengths: readonly StrengthLearnt[];
  readonly cards: readonly CardVerdict[];
  /**
   * The toner set for the next correction: strengths as learnt, `strengthSd` against the last believed pot, and the
   * whole belief as `learnt`. The set as given where no card was believed.
   */
  readonly toners: TonerSet;
  readonly warnings: readonly Warning[];
}
