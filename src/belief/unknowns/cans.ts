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
  const own = Float64Array.from({ length: used.length ** 2 }, (_, i) => {
    const [a, b] = [used[Math.floor(i / used.length)], used[i % used.length]];
    return covariance[a * toners + b];
  });
  const root = lowerFactor(own, used.length);
  return used.map((_, i): Unknown => {
    const effects = used.flatMap((toner, j): readonly Effect[] => {
      const sd = root[j * used.length + i];
      if (sd === 0) return [];
      const shape = new Float64Array(size).fill(sd);
      return [{ field: "strength", toner, from: 0, shape, share: everyFilm }];
    });
    return { owner: "can", effects };
  });
}

export const everyFilm = (): number => 1;
