import { sum } from "../core/sum.js";
import type { Problem } from "../problem/problem.js";
import type { PaintCost } from "../problem/terms.js";
import { alikeToners, strengthOf } from "../search/collinearToners.js";
import { createSearch, type FoundMix } from "../search/createSearch.js";
import { matches } from "../search/pickMix.js";
import type { Tie } from "./correction.js";

/** Mixes whose scores differ by less than this, in ΔE00, are a tie: no reading tells them apart (design value). */
const TIED = 0.01;

/**
 * A pour that would use more than this share of a stated stock is avoided where another toner does the same; common
 * sense, no source.
 */
const SPARED = 0.8;

/** A mix needs fewer grams if it needs less than this share of the other's. */
const FEWER = 0.9;

/**
 * Where another toner does the same as one that is poured, the one that leaves enough in stock is taken, then the one that needs
 * fewer grams, then the one that the pot holds already, then the first by id. Says what decided.
 */
export function settleTies(
  problem: Problem,
  picked: FoundMix,
  paint: PaintCost,
): { readonly mix: FoundMix; readonly ties: readonly Tie[] } {
  const { bench, model } = problem;
  const ids = model.set.toners.map(({ id }) => id);
  const search = createSearch(problem, paint);
  const isMatch = matches(problem, picked.additions);
  let mix = picked;
  const ties: Tie[] = [];
  for (const toner of picked.toners) {
    const alike = alikeToners(model, bench.pot, toner).filter(
      (j) => !picked.toners.includes(j) && !mix.toners.includes(j),
    );
    let now = toner;
    const coarse: number[] = [];
    const left: Contender[] = [];
    for (const other of alike) {
      const toners = mix.toners.map((j) => (j === now ? other : j));
      const ratio = strengthOf(model, bench.pot, now) / strengthOf(model, bench.pot, other);
      const start = mix.toners.map((j) => mix.additions[j] * (j === now ? ratio : 1));
      const swapped = search.within(toners, start, picked.score + TIED);
      if (!swapped || (isMatch && !matches(problem, swapped.additions))) {
        if (isCoarse(problem, now, other)) coarse.push(other);
        continue;
      }
      const [ours, theirs] = [
        { mix, toner: now },
        { mix: swapped, toner: other },
      ];
      const { isBetter } = compare(problem, ours, theirs);
      left.push(isBetter ? ours : theirs);
      if (!isBetter) continue;
      mix = swapped;
      now = other;
    }
    const taken = { mix, toner: now };
    const decisions = [
      ...left.map((one) => ({ other: one.toner, by: compare(problem, taken, one).by })),
      ...coarse.map((other) => ({ other, by: "scale" as const })),
    ];
    for (const decidedBy of new Set(decisions.map(({ by }) => by))) {
      const insteadOf = decisions.filter(({ by }) => by === decidedBy).map(({ other }) => ids[other]);
      ties.push({ toner: ids[now], insteadOf, decidedBy });
    }
  }
  return { mix, ties };
}

/** Whether a step of the other toner does more than twice what a step of ours does, and a step of it is in stock. */
function isCoarse({ model, bench: { unit, stock, pot } }: Problem, ours: number, theirs: number): boolean {
  const stepOf = (j: number) => unit[j] * strengthOf(model, pot, j);
  return stock[theirs] >= unit[theirs] && stepOf(theirs) > 2 * stepOf(ours);
}

interface Contender {
  readonly mix: FoundMix;
  readonly toner: number;
}

function compare(
  { bench: { stock, pot } }: Problem,
  ours: Contender,
  theirs: Contender,
): { readonly isBetter: boolean; readonly by: Tie["decidedBy"] } {
  const isShort = ({ mix, toner }: Contender) => mix.additions[toner] > SPARED * stock[toner];
  if (isShort(ours) !== isShort(theirs)) return { isBetter: isShort(ours), by: "stock" };
  const grams = [sum(ours.mix.additions), sum(theirs.mix.additions)];
  if (Math.min(...grams) < FEWER * Math.max(...grams)) {
    return { isBetter: grams[1] < grams[0], by: "grams" };
  }
  const holds = ({ toner }: Contender) => pot[toner] > 0;
  if (holds(ours) !== holds(theirs)) return { isBetter: holds(theirs), by: "recipe" };
  return { isBetter: theirs.toner < ours.toner, by: "order" };
}
