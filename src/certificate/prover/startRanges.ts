import type { Ranges } from "./bandEstimates.js";
import { bandFunctional, type Functional, largestRatio, type Reach } from "./reach.js";

/** What stock and room alone say of every band. */
export function startRanges(reach: Reach): Ranges {
  const { size, k, s, mean } = reach;
  const empty = () => new Float64Array(size);
  const ranges = { qLow: empty(), qHigh: empty(), sLow: empty(), sHigh: empty() };
  const absorbs = new Float64Array(reach.columns);
  const scatters = new Float64Array(reach.columns);
  const least = (f: Functional, over: Functional) =>
    Math.max(
      0,
      -largestRatio(
        reach,
        f.map((value) => -value),
        over,
      ),
    );
  for (let b = 0; b < size; b++) {
    bandFunctional(reach, k, b, absorbs);
    bandFunctional(reach, s, b, scatters);
    ranges.qHigh[b] = largestRatio(reach, absorbs, scatters);
    ranges.sHigh[b] = largestRatio(reach, scatters, mean);
    ranges.qLow[b] = least(absorbs, scatters);
    ranges.sLow[b] = least(scatters, mean);
  }
  return ranges;
}
