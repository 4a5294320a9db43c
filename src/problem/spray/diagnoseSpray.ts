import { type Belief, beliefOf } from "../../belief/belief.js";
import { flakeTilt } from "../../belief/flakeTilt.js";
import { tie } from "../../belief/tie.js";
import type { ForwardModel } from "../../forward/forwardModel.js";
import type { SpectralAim } from "../goal.js";
import type { CheckedTarget } from "../job.js";
import { hides } from "./hides.js";
import { hasOtherPaint, panelSpray } from "./panelSpray.js";

/** Whether what is off is how the flakes lie, before any gram is spoken of. */
export interface SprayDiagnosis {
  /**
   * `alike`: grams decide. `respray`: the flakes lie otherwise on the panels. `other-flake`: spraying is not it; another
   * grade of flake, or coarseness. `not-hiding`: the film shows what is under it, nothing is said.
   */
  readonly verdict: "alike" | "respray" | "other-flake" | "not-hiding";
  /** ln of the width of the tilts of the panels' flakes against the card's: above 0 they lie steeper. Null where not told. */
  readonly tilt: number | null;
  /** Of `respray`: the panels have another paint too, as far as can be told, and grams are solved for a card sprayed so. */
  readonly paintDiffers?: boolean;
  /** Why `other-flake`: the eye said so, the tilt is beyond any spraying, or a second card came no nearer. */
  readonly toldBy?: "texture" | "size" | "second-card";
}

/**
 * A tilt beyond this counts as another spraying: twice the difference of two films from a gun that repeats to 2 %
 * (docs/evidence.md).
 */
const LEAST_TILT = 0.06;
/** Spraying does not change the tilt by more than this: common practice, no source. */
const MOST_TILT = 0.45;
/** More than this left by paint and spraying is explained by neither (docs/evidence.md). */
const MOST_LEFT = 1;
/** Beyond this tilt another grade of flake is too often taken for other paint (docs/evidence.md). */
const MOST_TILT_WITH_GRAMS = 0.25;

/**
 * How flakes lie on the panels against the last card, by `panelSpray`; nothing for a pot without a toner whose orientation
 * is known and for targets that all look alike in texture. With an earlier card that was off: whether another spraying explains the angles now.
 */
export function diagnoseSpray(
  belief: Belief,
  { model, panels }: { readonly model: ForwardModel; readonly panels: readonly SpectralAim[] },
  targets: readonly CheckedTarget[],
): SprayDiagnosis | undefined {
  if (targets.some(({ texture, weight }) => texture !== "same" && weight > 0)) {
    return { verdict: "other-flake", tilt: null, toldBy: "texture" };
  }
  const { cards, prior } = belief;
  const last = cards[cards.length - 1];
  if (!belief.used.some((j) => model.orientation[j] && last.grams[j] > 0)) return undefined;
  const read = panels.filter(({ isInferred }) => !isInferred);
  if (last.isExpected || read.length === 0) return undefined;
  if (!hides(model, last.grams, prior.sizes.filmScattering)) return { verdict: "not-hiding", tilt: null };
  const card = { model, pot: last.grams, tilt: flakeTilt(belief) };
  const { tilt, left } = panelSpray(card, read);
  if (Math.abs(tilt) > MOST_TILT) return { verdict: "other-flake", tilt, toldBy: "size" };
  if (left > MOST_LEFT && wasOff(belief, read))
    return { verdict: "other-flake", tilt, toldBy: "second-card" };
  if (Math.abs(tilt) <= LEAST_TILT) return { verdict: "alike", tilt };
  const paintDiffers = Math.abs(tilt) <= MOST_TILT_WITH_GRAMS && hasOtherPaint(card, read);
  return { verdict: "respray", tilt, paintDiffers };
}

/** Whether the card before the last one was off by spraying. */
function wasOff({ cards, prior }: Belief, panels: readonly SpectralAim[]): boolean {
  const before = cards[cards.length - 2];
  if (before === undefined || before.isExpected) return false;
  const earlier = beliefOf(prior, cards.slice(0, -1));
  const card = { model: tie(earlier), pot: before.grams, tilt: flakeTilt(earlier) };
  return Math.abs(panelSpray(card, panels).tilt) > LEAST_TILT;
}
