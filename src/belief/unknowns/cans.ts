import { lowerFactor } from "../../numeric/linear/lowerFactor.js";
import type { Effect, Unknown } from "../unknown.js";

/**
 * Strengths of the cans: ln f = mean + L·u with L·Lᵀ their covariance, so that cans that cards have seen together stay
 * correlated. `used` are the toners that any film holds.
 */
export function canUnknowns(
  covariance: Float64Array,
  used: readonly number[],
  size: number,
): readonly Unknown[] {
  const toners = Math.sqrt(covariance.length);
  const own = new Float64Array(used.length ** 2);
  for (let i = 0; i < used.length; i++) {
    for (let j = 0; j < used.length; j++) own[i * used.length + j] = covariance[used[i] * toners + used[j]];
  }
  const root = lowerFactor(own, used.length);
  // Most of hundreds of cans are known alike, and one shape serves them all.
  const levels = new Map<number, Float64Array>();
  const levelOf = (sd: number) => {
    const known = levels.get(sd) ?? new Float64Array(size).fill(sd);
    levels.set(sd, known);
    return known;
  };
  return used.map((_, i): Unknown => {
    const effects: Effect[] = [];
    for (let j = i; j < used.length; j++) {
      const sd = root[j * used.length + i];
      if (sd === 0) continue;
      effects.push({ field: "strength", toner: used[j], from: 0, shape: levelOf(sd), share: everyFilm });
    }
    return { owner: "can", effects };
  });
}

export const everyFilm = (): number => 1;
