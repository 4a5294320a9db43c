import { addLeft } from "./addLeft.js";
import type { Belief } from "./belief.js";
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
      const left = new Float64Array(1);
      addLeft(posterior, by, left);
      const sd = Math.sqrt(Math.max(0, left[0]));
      return [[name, { logGain: before.logGain + before.sd * posterior.u[x], sd }]];
    }),
  );
}
