import type { Bench } from "../problem/bench.js";

/** Least and most of each of some toners, and what the cup takes of them together. */
export interface SubsetBox {
  readonly low: readonly number[];
  readonly high: readonly number[];
  readonly room: number;
}

/** What a pour of each of these toners may be. */
export function boxOf({ least, stock, room }: Bench, toners: readonly number[]): SubsetBox {
  return { low: toners.map((j) => least[j]), high: toners.map((j) => Math.min(stock[j], room)), room };
}
