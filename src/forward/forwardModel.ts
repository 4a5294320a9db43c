import type { Viewing } from "../colorimetry/viewing.js";
import { type TristimulusWeights, tristimulusWeights } from "../colorimetry/weights.js";
import type { Geometry } from "../surface/geometry.js";
import { type SurfaceTerms, surfaceTerms } from "../surface/saunderson.js";
import { type Coefficients, packCoefficients } from "../toners/coefficients.js";
import type { TiltCurve } from "../toners/orientation.js";
import { surfaceAt, type TonerSet } from "../toners/tonerSet.js";

/** One illuminant of the viewing conditions with its tristimulus weights on the grid of the model. */
export interface Light {
  readonly name: string;
  readonly weight: number;
  readonly tristimulus: TristimulusWeights;
}

/**
 * What ties the model to a card, band by band over all geometries: K̂ = scale·K + ghost, and what is left over
 * is added to the measured reflectance as `shift`. See `anchorToCard`.
 */
export interface Anchor {
  readonly scale: Float64Array;
  readonly ghost: Float64Array;
  readonly shift: Float64Array;
}

/** Everything between grams and colour that does not depend on the grams, laid out for arithmetic. */
export interface ForwardModel {
  readonly set: TonerSet;
  readonly geometries: readonly Geometry[];
  readonly surfaces: readonly SurfaceTerms[];
  readonly lights: readonly Light[];
  readonly coefficients: Coefficients;
  /** By toner and geometry, what the lie of its flakes does; of toners without an orientation nothing. */
  readonly orientation: readonly (readonly (TiltCurve | undefined)[] | undefined)[];
  readonly anchor: Anchor;
}

/**
 * The forward model of a checked toner set seen at some geometries under the lights of `viewing`: grams → K, S →
 * opaque film → surface → measured reflectance → XYZ → Lab. Not tied to any card: `anchorToCard` does that.
 * Throws `unknown-geometry` for a geometry the toners were not characterised at.
 */
export function createForwardModel(
  set: TonerSet,
  viewing: Viewing,
  geometries: readonly Geometry[],
): ForwardModel {
  const size = geometries.length * set.grid.count;
  return {
    set,
    geometries,
    surfaces: geometries.map((geometry) => surfaceTerms(surfaceAt(set, geometry, "geometries"))),
    lights: viewing.illuminants.map(({ name, weight = 1 }) => ({
      name,
      weight,
      tristimulus: tristimulusWeights({
        grid: set.grid,
        illuminant: name,
        observer: viewing.observer,
      }),
    })),
    coefficients: packCoefficients(set, geometries),
    orientation: set.toners.map(
      ({ orientation }) => orientation && geometries.map((geometry) => orientation[geometry]),
    ),
    anchor: {
      scale: new Float64Array(size).fill(1),
      ghost: new Float64Array(size),
      shift: new Float64Array(size),
    },
  };
}

/** Number of colours that the model gives: one per geometry and light, geometries first. */
export function colourCount(model: ForwardModel): number {
  return model.geometries.length * model.lights.length;
}
