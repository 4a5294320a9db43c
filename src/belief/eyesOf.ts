import { dot } from "../numeric/linear/dot.js";
import type { Belief } from "./belief.js";
import { shownBy } from "./shownBy.js";
import type { EyeGain } from "./unknowns/instrument.js";

/** What the comparisons of a belief leave of every eye: mean and sd of ln gain. */
export function eyesOf({ shared, panels, scope, posterior }: Belief): ReadonlyMap<string, EyeGain> {
  const all = panels.flatMap(({ comparisons }) => comparisons);
  return new Map(
    [...shared.observers].flatMap(([name, unknown]): readonly (readonly [string, EyeGain])[] => {
      const before = all.find(({ observer }) => observer === name)?.eye;
      if (!before) return [];
      const x = scope.unknowns.indexOf(unknown);
      const by = new Float64Array(scope.unknowns.length);
      by[x] = before.sd;
      const shown = shownBy(posterior, by, 1);
      const sd = Math.sqrt(Math.max(0, before.sd ** 2 - dot(shown, shown)));
      return [[name, { logGain: before.logGain + before.sd * posterior.u[x], sd }]];
    }),
  );
}
