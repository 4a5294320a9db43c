import type { LearntRepeat, LearntStrengths, Repeated } from "../toners/learntStrengths.js";
import type { Belief } from "./belief.js";
import type { BeliefSizes } from "./beliefSizes.js";
import { determined } from "./variances.js";

/** How many films a size beforehand is worth, and at most counts for: guns change (design values). */
const FILMS_BEFORE = 4;
const MOST_FILMS = 30;

/**
 * How well films repeat, by what the cards of a pot say of the unknowns u of each film. If the sizes are right, Σû² is
 * expected to be Σ(1 − variance afterwards); that sum is the number n of films shown. σ² ← σ²(ν + Σû²)/(ν + n), ν the films it
 * rested on. What a card cannot tell from paint and toners counts in neither sum. Source: Gelman et al. 2013, §2.6.
 */
export function learnRepeats(
  { scope, posterior, prior }: Belief,
  { repeats: before = {} }: Pick<LearntStrengths, "repeats">,
): NonNullable<LearntStrengths["repeats"]> {
  const places = [...scope.unknowns.keys()].filter((x) => scope.unknowns[x].repeats !== undefined);
  const shown = determined(posterior, places);
  const sums = new Map<Repeated, { squares: number; films: number }>();
  places.forEach((x, i) => {
    const { repeats } = scope.unknowns[x];
    if (repeats === undefined) return;
    const sum = sums.get(repeats) ?? { squares: 0, films: 0 };
    sums.set(repeats, { squares: sum.squares + posterior.u[x] ** 2, films: sum.films + shown[i] });
  });
  const after = [...sums].map(([size, sum]) => [size, repeatAfter(size, sum, prior.sizes, before)] as const);
  return { ...before, ...Object.fromEntries(after) };
}

function repeatAfter(
  size: Repeated,
  { squares, films }: { readonly squares: number; readonly films: number },
  sizes: BeliefSizes,
  before: NonNullable<LearntStrengths["repeats"]>,
): LearntRepeat {
  const known = before[size]?.films ?? FILMS_BEFORE;
  const sd = sizes[size] * Math.sqrt((known + squares) / (known + films));
  return { sd, films: Math.min(MOST_FILMS, known + films) };
}
