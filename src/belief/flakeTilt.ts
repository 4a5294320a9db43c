import type { Belief } from "./belief.js";
import { fieldsOf } from "./filmResponse.js";

/** How the flakes of the last card lie by the likeliest world: ln of the width of their tilts against the ladder's. */
export function flakeTilt({ cards, scope, posterior }: Belief): number {
  return fieldsOf(scope.model, scope.unknowns, posterior.u, scope.films[cards.length - 1]).flakeTilt[0];
}
