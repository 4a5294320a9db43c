import { ANCHOR_DEFAULTS } from "../../forward/anchor.js";
import type { ForwardModel } from "../../forward/forwardModel.js";
import { colouringToners } from "./colouringToners.js";

/**
 * Standard deviation of ln strength by toner of the set. A can of which nothing is said may be off as far as cans
 * are; a toner that colours nothing has no strength.
 */
export function strengthSds(model: ForwardModel): Float64Array {
  const sds = new Float64Array(model.set.toners.length);
  for (const j of colouringToners(model)) {
    sds[j] = model.set.toners[j].strengthSd ?? ANCHOR_DEFAULTS.strengthSd;
  }
  return sds;
}
