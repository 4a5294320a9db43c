import type { Warning } from "../../core/warning.js";
import type { TargetRole } from "../../tolerance/tolerance.js";
import type { Grams } from "../../toners/pot.js";
import type { PanelFade } from "../fade/panelFade.js";
import type { RankedFormula } from "../fade/rankFormulas.js";
import type { ExpectedCost } from "./expectedCost.js";

/** A panel as the chosen formula explains it. */
export interface PlannedPanel extends PanelFade {
  readonly panel: string;
  readonly role: TargetRole;
  /** Whether the formula explains it; where not, nothing promised of this panel holds. */
  readonly explained: boolean;
  /** Grams that make the panel's share of the paint as the panel looks today, yellowing imitated. */
  readonly recipe: Grams;
}

/** What of one toner goes into the first pot. */
export interface PouredNow {
  readonly toner: string;
  /** In whole scale steps. */
  readonly grams: number;
  /** The full formula at the size of this pot, and what of it is kept back. */
  readonly formulaGrams: number;
  readonly keptBackGrams: number;
  /** Standard deviation of ln strength of the can against the pot as a whole, before and after the first card. */
  readonly strengthSd: number;
  readonly strengthSdAfterCard: number;
  /** Whether that is `identifiedSd` or less after the card. */
  readonly identified: boolean;
}

/** A pour that is expected on the way to a panel; the cards will say what it really is. */
export interface ExpectedPour {
  readonly toner: string;
  readonly grams: number;
}

/** One colour on the way: what is expected to be poured, what is then in the pot, which panels are sprayed from it. */
export interface PlannedStage {
  readonly panels: readonly string[];
  readonly pours: readonly ExpectedPour[];
  readonly potGrams: number;
  readonly sprayGrams: number;
}

/** One way to start a pot: what it costs on average, and how often every panel stays within reach. */
export interface StartOfPot extends ExpectedCost {
  readonly reachProbability: number;
}

/** One pot from the first pour to the last panel. */
export interface PlannedPot {
  readonly panels: readonly string[];
  /** Paint that the pot is to hold when its first panel is sprayed, and the most it may come to hold. */
  readonly wantedGrams: number;
  readonly mostGrams: number;
  readonly pourNow: readonly PouredNow[];
  readonly stages: readonly PlannedStage[];
  readonly held: StartOfPot;
  /** The same had the full formula been mixed. */
  readonly full: StartOfPot;
}

/** How far one colour for all panels would be off each: the price of the compromise. */
export interface CompromisePrice {
  readonly panel: string;
  readonly deltaE00: number;
  /** Share of what the panel's role allows; at most 1 where the compromise passes. */
  readonly allowanceUsed: number;
}

/**
 * The answer of `planHoldBack`. `one-colour`: one colour passes on all panels. `chain`: one pot, the panels in order,
 * the most faded first. `fork`: more than one pot.
 */
export interface HoldBackPlan {
  readonly format: "masstone/hold-back";
  readonly version: 1;
  /** `unexplained`: the formula does not explain every panel; see `panels` and `formulas`. */
  readonly status: "planned" | "unexplained";
  readonly formula: string;
  readonly formulas: readonly RankedFormula[];
  readonly panels: readonly PlannedPanel[];
  readonly strategy: "one-colour" | "chain" | "fork";
  readonly compromise: { readonly recipe: Grams; readonly prices: readonly CompromisePrice[] };
  readonly pots: readonly PlannedPot[];
  /** What was promised, and how the numbers were come by. */
  readonly reachProbability: number;
  readonly draws: number;
  readonly seed: number;
  readonly method: string;
  readonly warnings: readonly Warning[];
  /** What to take care of before paint is sprayed. */
  readonly caution: string;
}
