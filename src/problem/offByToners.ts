import { ciede2000 } from "../colorimetry/ciede2000.js";
import { labFromXyz } from "../colorimetry/lab.js";
import { xyzFromReflectance } from "../colorimetry/xyz.js";
import { createEvaluation, evaluate } from "../forward/evaluate.js";
import { createForwardModel } from "../forward/forwardModel.js";
import { createScene } from "../scene/createScene.js";
import type { Geometry } from "../surface/geometry.js";
import { gramsInOrder } from "../toners/pot.js";
import type { CheckedJob } from "./job.js";

/**
 * ΔE00 under the first light of a target, as read at a geometry, from the pot as the toners alone predict it, tied to no card;
 * undefined where the target was not read there, the toners are generic, or nothing in the pot scatters.
 */
export function offByToners(
  { toners, viewing, pot, targets }: CheckedJob,
  target: number,
  geometry: Geometry,
): number | undefined {
  const readings = targets[target].readings.filter((reading) => reading.geometry === geometry);
  const isGeneric = toners.toners.some(({ id, provenance }) => provenance === "generic" && pot[id] > 0);
  if (readings.length === 0 || isGeneric) return undefined;
  const surface = { readings, path: `targets[${target}].readings` };
  const scene = createScene(toners, [surface], (one) => one === geometry, surface.path);
  const model = createForwardModel(scene.toners, viewing, [geometry]);
  const at = createEvaluation(model);
  evaluate(model, gramsInOrder(pot, toners.toners), at);
  const { tristimulus } = model.lights[0];
  const read = labFromXyz(xyzFromReflectance(scene.aligned(surface), tristimulus), tristimulus.white);
  const off = ciede2000(read, [at.lab[0], at.lab[1], at.lab[2]]);
  return Number.isFinite(off) ? off : undefined;
}
