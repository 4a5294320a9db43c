import { tristimulusWeights } from "masstone/colorimetry";
import { plainWeights } from "../baselines/plainWeights.mjs";
import { expectClose } from "../expectClose.mjs";
import { GRID } from "../inventedPaint.mjs";

/** Tristimulus weights of 31 bands for D65, tabulated every 1 nm: once per light of a job. */
export function weightsCases() {
  const options = { grid: GRID, illuminant: "D65", observer: "1964-10" };
  return [
    {
      name: "tristimulus weights",
      run: () => tristimulusWeights(options),
      baseline: { name: "XYZ of every band on its own", run: () => plainWeights(options) },
      check() {
        const [actual, expected] = [tristimulusWeights(options), plainWeights(options)];
        for (const axis of ["x", "y", "z"])
          expectClose(`weights, ${axis}`, actual[axis], expected[axis], 1e-12);
      },
    },
  ];
}
