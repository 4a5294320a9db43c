/**
 * The fewest pots that serve all panels, and among those the least poured from panel to panel: each pot is a list of
 * panels in the order of spraying. `costs[i][j]` is what going from panel i to j takes, Infinity where it cannot be
 * done. Exact, by dynamic programming over subsets and the panel sprayed last (Held & Karp 1962), 2ⁿn² steps.
 * Were the relation a partial order this would be its smallest chain cover (Dilworth 1950; Fulkerson 1956 finds it by
 * matching); tolerance is not transitive, so it is none.
 */
export function fewestPots(costs: readonly (readonly number[])[]): readonly (readonly number[])[] {
  const count = costs.length;
  const states: (State | undefined)[] = new Array(count * 2 ** count);
  const offer = (subset: number, state: State): void => {
    const place = subset * count + state.last;
    const held = states[place];
    if (!held || isLess(state, held)) states[place] = state;
  };
  for (let panel = 0; panel < count; panel++) offer(1 << panel, { last: panel, pots: 1, cost: 0 });
  for (let subset = 1; subset < 2 ** count; subset++) {
    for (let last = 0; last < count; last++) {
      const state = states[subset * count + last];
      if (!state) continue;
      for (let next = 0; next < count; next++) {
        if (subset & (1 << next)) continue;
        const cost = costs[last][next];
        const larger = subset | (1 << next);
        if (Number.isFinite(cost)) {
          offer(larger, { last: next, pots: state.pots, cost: state.cost + cost, before: state });
        }
        offer(larger, { last: next, pots: state.pots + 1, cost: state.cost, before: state });
      }
    }
  }
  const all = states.slice((2 ** count - 1) * count).filter((state) => state !== undefined);
  return potsOf(all.reduce((best, state) => (isLess(state, best) ? state : best)));
}

/** The cheapest way to have sprayed some panels, `last` last. */
interface State {
  readonly last: number;
  readonly pots: number;
  readonly cost: number;
  readonly before?: State;
}

const isLess = (a: State, b: State): boolean =>
  a.pots < b.pots || (a.pots === b.pots && a.cost < b.cost - 1e-12);

function potsOf(end: State): readonly (readonly number[])[] {
  const pots: number[][] = [];
  let pot: number[] = [];
  for (let state: State | undefined = end; state; state = state.before) {
    pot.unshift(state.last);
    if (state.before?.pots === state.pots) continue;
    pots.unshift(pot);
    pot = [];
  }
  return pots;
}
