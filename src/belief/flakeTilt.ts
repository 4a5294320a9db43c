import type { Belief } from "./belief.js";
import { fieldsOf } from "./filmResponse.js";

/** How the flakes of a card lie by the likeliest world: ln of the width of their tilts against the ladder's. */
export function flakeTilt({ scope, posterior }: Belief, card: number): number {
  return fieldsOf(scope.model, scope.unknowns, posterior.u, scope.films[card]).flakeTilt[0];
}
