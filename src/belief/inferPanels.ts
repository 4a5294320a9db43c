import { chiSquareTail } from "../numeric/probability/chiSquareTail.js";
import { type Belief, beliefOf } from "./belief.js";
import type { BelieveEffort } from "./believe.js";
import { filmResponse } from "./filmResponse.js";
import type { SeenPanel } from "./panel.js";

/** A paint that a panel may have: its grams, and sd of ln of how much of every toner it truly has. */
export interface PanelPaint {
  readonly grams: Float64Array;
  readonly tonerSds: Float64Array;
}

/** What is known of a panel, and the paints that it may have. */
export interface PanelToInfer extends Pick<SeenPanel, "spectra" | "colours" | "comparisons"> {
  /** What it was painted with, faded; where that is known. */
  readonly formula?: PanelPaint;
  /** What is in the pot. */
  readonly pot: PanelPaint;
}

/** What is believed of a panel. */
export interface InferredPanel {
  /** Over all geometries of the model. */
  readonly reflectance: Float64Array;
  /** Its faded formula does not explain its colour. */
  readonly isUnexplained: boolean;
}

/** Sd of a panel's own ln(K/S): of a panel that is what its formula says, and of one that has something else in it. */
const CURVE_SDS = Object.freeze({ near: 0.05, far: 0.4 });

/** Share of panels that lie further from their formula; a panel beyond this is not explained by it. */
const LEAST_TAIL = 0.001;

const EFFORT: BelieveEffort = Object.freeze({ steps: 6, halvings: 6 });

/**
 * Panels of which no spectrum was read as further films of a belief: a paint that the panel may have, and a smooth curve of
 * its own in ln(K/S), of sd 0.05 or 0.4, weighed by their evidence: σ² = w·0.05² + (1 − w)·0.4². Of formula and pot the
 * paint with more evidence counts; with no work left the formula, and 0.4. Sizes: a study on other physics (docs/evidence.md).
 */
export function inferPanels(
  { prior, cards, posterior }: Belief,
  panels: readonly PanelToInfer[],
): { readonly belief: Belief; readonly inferred: readonly InferredPanel[] } {
  const chosen = panels.map((panel) => {
    const { spectra, colours, comparisons } = panel;
    if (prior.work?.isSpent()) {
      const paint = panel.formula ?? panel.pot;
      return {
        seen: { spectra, colours, comparisons, ...paint, curveSd: CURVE_SDS.far },
        isUnexplained: false,
      };
    }
    const tried = (paint: PanelPaint) => {
      const [near, far] = [CURVE_SDS.near, CURVE_SDS.far].map((curveSd) => {
        const seen = { spectra, colours, comparisons, ...paint, curveSd };
        return beliefOf(prior, cards, { panels: [seen], effort: EFFORT }).posterior;
      });
      const odds = Math.exp(Math.min(50, far.logEvidence - near.logEvidence));
      const nearShare = 1 / (1 + odds);
      const variance = nearShare * CURVE_SDS.near ** 2 + (1 - nearShare) * CURVE_SDS.far ** 2;
      return {
        seen: { spectra, colours, comparisons, ...paint, curveSd: Math.sqrt(variance) },
        evidence: near.logEvidence + Math.log1p(odds),
        tail: chiSquareTail(near.chiSquare - posterior.chiSquare, near.rows - posterior.rows),
      };
    };
    const byPot = tried(panel.pot);
    if (!panel.formula) return { seen: byPot.seen, isUnexplained: false };
    const byFormula = tried(panel.formula);
    const isPotBetter = !(byFormula.evidence >= byPot.evidence);
    return {
      seen: (isPotBetter ? byPot : byFormula).seen,
      isUnexplained: byFormula.tail < LEAST_TAIL,
    };
  });
  const belief = beliefOf(prior, cards, { panels: chosen.map(({ seen }) => seen) });
  const { model, strengths, unknowns, films } = belief.scope;
  const world = { unknowns, u: belief.posterior.u };
  const inferred = chosen.map(({ isUnexplained }, p) => ({
    reflectance: filmResponse(model, strengths, world, films[cards.length + p]).reflectance,
    isUnexplained,
  }));
  return { belief, inferred };
}
