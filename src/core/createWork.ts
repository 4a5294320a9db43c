/** Counts work against a budget, in steps of about one multiplication and one addition: the same on every machine. */
export interface Work {
  /** Counts steps; returns whether any are left. */
  spend(steps: number): boolean;
  /** Whether the budget is used up, or the host has asked to stop. */
  isSpent(): boolean;
  left(): number;
  done(): number;
  /** A part of this budget: the given share of what is left. What it spends counts here too. */
  share(part: number): Work;
}

/** Steps between two calls of `shouldStop`: a millisecond or two. */
const POLL = 1e6;

/** @param most steps allowed; @param shouldStop asked now and then whether to stop before that */
export function createWork(most: number, shouldStop: () => boolean = () => false): Work {
  let sinceAsked = 0;
  let isStopped = false;
  return limited(most, {
    spend(steps) {
      sinceAsked += steps;
      if (sinceAsked < POLL || isStopped) return;
      sinceAsked = 0;
      isStopped = shouldStop();
    },
    left: () => (isStopped ? 0 : Number.POSITIVE_INFINITY),
  });
}

interface Parent {
  spend(steps: number): void;
  left(): number;
}

function limited(most: number, parent: Parent): Work {
  let done = 0;
  const work: Work = {
    spend(steps) {
      done += steps;
      parent.spend(steps);
      return !work.isSpent();
    },
    isSpent: () => work.left() <= 0,
    left: () => Math.min(most - done, parent.left()),
    done: () => done,
    share: (part) => limited(part * Math.max(0, work.left()), work),
  };
  return work;
}
