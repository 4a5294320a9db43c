import { massToReach, ofMass } from "../holdBack/massToReach.js";
import type { CheckedPlanJob } from "../holdBack/planJob.js";
import { fadingOf } from "./fading.js";
import type { FadeFit } from "./fitFade.js";
import { type PanelFade, panelFade } from "./panelFade.js";

/** A formula on hand, and what it would need to be what the panels were painted with. */
export interface RankedFormula {
  readonly formula: string;
  /** Whether its fresh colour was read, which the model is then tied to. */
  readonly hasReading: boolean;
  /** Whether it explains every panel: no misfit, implausibility or colour difference beyond the limits. */
  readonly explains: boolean;
  /** ln of how likely the panels are under it against the likeliest formula: 0 for that one, else negative. */
  readonly logOdds: number;
  /** The worst panel's, see `PanelFade`. */
  readonly deltaE00: number;
  readonly misfit: number;
  readonly implausibility: number;
  /** Grams that the pot would hold by the time the neediest panel is matched, were the full formula mixed. */
  readonly paintNeededGrams: number;
}

/** One-sided 5 % point of the normal law, in standard deviations. */
export const FURTHEST_SD = 1.645;

/** Largest ΔE00 between a panel and the faded formula that still explains it: our choice. */
export const FURTHEST_DELTA_E00 = 1.25;

/** Whether a panel may have been painted with the formula of a fit. */
export function isExplained({ misfit, implausibility, deltaE00 }: PanelFade): boolean {
  return misfit <= FURTHEST_SD && implausibility <= FURTHEST_SD && deltaE00 <= FURTHEST_DELTA_E00;
}

/** The formulas on hand, the likeliest first; `fits` in the order of the job's formulas. */
export function rankFormulas(job: CheckedPlanJob, fits: readonly FadeFit[]): readonly RankedFormula[] {
  const most = Math.max(...fits.map(({ logEvidence }) => logEvidence));
  return fits
    .map((fit, i): RankedFormula => {
      const panels = job.panels.map((_, p) => panelFade(fit, p));
      const worst = (key: "deltaE00" | "misfit" | "implausibility") =>
        Math.max(...panels.map((panel) => panel[key]));
      return {
        formula: job.formulas[i].name,
        hasReading: job.formulas[i].readings !== undefined,
        explains: panels.every(isExplained),
        logOdds: fit.logEvidence - most,
        deltaE00: worst("deltaE00"),
        misfit: worst("misfit"),
        implausibility: worst("implausibility"),
        paintNeededGrams: Math.max(
          ...job.panels.map((_, p) =>
            massToReach(
              ofMass(fit.formula.grams, job.wantedGrams),
              fadingOf(fit, p).grams(fit.belief.posterior.u),
            ),
          ),
        ),
      };
    })
    .sort((a, b) => b.logOdds - a.logOdds);
}
