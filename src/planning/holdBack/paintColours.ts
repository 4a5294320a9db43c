import { type Lab, labFromXyz } from "../../colorimetry/lab.js";
import { xyzFromReflectance } from "../../colorimetry/xyz.js";
import { createEvaluation, evaluate } from "../../forward/evaluate.js";
import type { ForwardModel } from "../../forward/forwardModel.js";
import { reflectivity } from "../../optics/infiniteFilm.js";
import { measuredReflectance } from "../../surface/saunderson.js";

/** Measured reflectance of a mix whose K/S something else than its toners raises, band by band. */
export function paintReflectance(
  model: ForwardModel,
  grams: ArrayLike<number>,
  addedRatio: (band: number) => number = () => 0,
): Float64Array {
  const bands = model.set.grid.count;
  const at = createEvaluation(model);
  evaluate(model, grams, at);
  return at.s.map((scattering, b) => {
    const inside = reflectivity(at.k[b] + addedRatio(b) * scattering, scattering);
    return measuredReflectance(inside, model.surfaces[Math.floor(b / bands)]) + model.anchor.shift[b];
  });
}

/** The colours of a reflectance laid out like the model's: geometry by geometry, light by light. */
export function paintColours(model: ForwardModel, reflectance: Float64Array): readonly Lab[] {
  const { count } = model.set.grid;
  return model.geometries.flatMap((_, g) =>
    model.lights.map(({ tristimulus }) => {
      const spectrum = reflectance.subarray(g * count, (g + 1) * count);
      return labFromXyz(xyzFromReflectance(spectrum, tristimulus), tristimulus.white);
    }),
  );
}
