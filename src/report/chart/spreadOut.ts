import type { Interval } from "./scale.js";

/**
 * Positions at least `gap` apart (less where the interval has no room for that) and inside the interval, in the order
 * of the wishes and as near to them as one push down and one push back leave them.
 */
export function spreadOut(wishes: readonly number[], gap: number, [low, high]: Interval): readonly number[] {
  const apart = Math.min(gap, (high - low) / Math.max(1, wishes.length - 1));
  const order = wishes.map((_, i) => i).sort((a, b) => wishes[a] - wishes[b] || a - b);
  const places = [...wishes];
  let free = low;
  for (const i of order) {
    places[i] = Math.max(wishes[i], free);
    free = places[i] + apart;
  }
  let limit = high;
  for (const i of order.reverse()) {
    places[i] = Math.min(places[i], limit);
    limit = places[i] - apart;
  }
  return places;
}
