import { createEvaluation, createForwardModel, createGradient, differentiate, evaluate } from "masstone";
import { plainForward, plainJacobian } from "../baselines/plainForward.mjs";
import { expectClose } from "../expectClose.mjs";
import { FIVE_ANGLES, FULL_POT, ONE_LIGHT, tonerSet } from "../inventedPaint.mjs";

/** Reflectance, XYZ and Lab of a mix of 15 toners, 31 bands × 5 geometries × 1 light, without and with slopes. */
export function forwardCases() {
  const set = tonerSet(FIVE_ANGLES);
  const model = createForwardModel(set, ONE_LIGHT, FIVE_ANGLES);
  const at = createEvaluation(model);
  const slopes = createGradient(model);
  const everyToner = Array.from(FULL_POT.keys());
  const [{ tristimulus: weights }] = model.lights;
  const plainPot = Array.from(FULL_POT);
  const forward = () => evaluate(model, FULL_POT, at);
  const withSlopes = () => {
    evaluate(model, FULL_POT, at);
    differentiate(model, at, slopes, everyToner);
  };
  const plain = () => plainForward(set, plainPot, weights);
  const byDifferences = () => plainJacobian(set, plainPot, weights);

  return [
    {
      name: "forward model",
      aimMicroseconds: 5,
      run: forward,
      baseline: { name: "textbook formulas on plain arrays", run: plain },
      check() {
        forward();
        const expected = plain();
        for (const key of ["reflectance", "xyz", "lab"]) {
          expectClose(
            `forward model, ${key}`,
            at[key],
            expected.flatMap((geometry) => geometry[key]),
            1e-12,
          );
        }
      },
    },
    {
      name: "forward model with Jacobian",
      aimMicroseconds: 20,
      run: withSlopes,
      baseline: { name: "central differences of the textbook formulas", run: byDifferences },
      check() {
        withSlopes();
        const expected = byDifferences();
        for (const key of ["reflectance", "lab"]) {
          expectClose(
            `Jacobian, ${key}`,
            slopes[key],
            expected.flat().flatMap((geometry) => geometry[key]),
            1e-7,
          );
        }
      },
    },
  ];
}
