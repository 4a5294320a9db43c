import { sum } from "../../core/sum.js";
import type { ForwardModel } from "../../forward/forwardModel.js";
import { HIDING_DEFAULTS, hidingThickness } from "../../optics/hiding.js";
import { geometryFacts } from "../../surface/geometry.js";
import { mix } from "../../toners/coefficients.js";

/**
 * Whether a film of the usual build hides: at the angle furthest from the mirror's, where a film shows most of what is under
 * it and two fluxes hold best. K and S of one geometry have a scale of their own there: the usual film is the one whose S·X
 * is `build` where it is all of the toner that scatters most.
 */
export function hides(model: ForwardModel, pot: Float64Array, build: number): boolean {
  const { coefficients, geometries, lights, set } = model;
  const { size, toners } = coefficients;
  const bands = set.grid.count;
  const angles = geometries.map((geometry) => geometryFacts(geometry).aspecular ?? 0);
  const from = angles.indexOf(Math.max(...angles)) * bands;
  const luminous = lights[0].tristimulus.y;
  const bright = (s: Float64Array) => s.reduce((sum, value, b) => sum + luminous[b] * value, 0);
  const strongest = Math.max(
    ...Array.from({ length: toners }, (_, j) =>
      bright(coefficients.s.subarray(j * size + from, j * size + from + bands)),
    ),
  );
  const k = new Float64Array(size);
  const s = new Float64Array(size);
  mix(coefficients, pot, k, s);
  const unit = (strongest * sum(pot)) / bright(new Float64Array(bands).fill(1));
  const per = (values: Float64Array) => values.subarray(from, from + bands).map((value) => value / unit);
  return hidingThickness({ ...HIDING_DEFAULTS, k: per(k), s: per(s), luminous }) <= build;
}
