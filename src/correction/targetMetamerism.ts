import { metamerismInLab, metamerismInXyz, type UnderTwoLights } from "../colorimetry/metamerism.js";
import type { Xyz } from "../colorimetry/xyz.js";
import type { Evaluation } from "../forward/evaluate.js";
import { type Aim, labAt } from "../problem/goal.js";
import type { CheckedJob } from "../problem/job.js";
import type { Problem } from "../problem/problem.js";
import type { MixMetamerism } from "./mixMetamerism.js";

/**
 * How the mix and each target part company when the light changes, whatever difference is left under the reference
 * light taken out: from the heaviest light (the first of several) to each of the others, at every geometry.
 */
export function targetMetamerism(
  { targets }: CheckedJob,
  { model, goal }: Problem,
  { lab, xyz }: Evaluation,
): readonly MixMetamerism[] {
  const weights = model.lights.map(({ weight }) => weight);
  const reference = weights.indexOf(Math.max(...weights));
  const mixXyz = ({ place }: Aim): Xyz => [xyz[place], xyz[place + 1], xyz[place + 2]];
  return goal.aims
    .filter(({ light }) => light !== reference)
    .map((test) => {
      const same = (aim: Aim) =>
        aim.target === test.target && aim.geometry === test.geometry && aim.light === reference;
      const aim = goal.aims.find(same) as Aim;
      const pair = <C>(of: (aim: Aim) => C): UnderTwoLights<C> => ({ reference: of(aim), test: of(test) });
      const mix = pair(mixXyz);
      return {
        target: targets[test.target].name,
        geometry: model.geometries[test.geometry],
        reference: model.lights[reference].name,
        test: model.lights[test.light].name,
        additive: metamerismInLab(
          pair((one) => one.lab),
          pair(({ place }) => labAt(lab, place)),
        ),
        multiplicative: mix.reference.every((value) => value > 0)
          ? metamerismInXyz(
              pair((one) => one.xyz),
              mix,
              model.lights[test.light].tristimulus.white,
            )
          : null,
      };
    });
}
