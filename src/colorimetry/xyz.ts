import { InputError } from "../core/InputError.js";

/** CIE tristimulus values; Y of the perfect diffuser is 100. */
export type Xyz = readonly [x: number, y: number, z: number];

/** What the reflectance of each band is multiplied with. */
export interface BandWeights {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly z: Float64Array;
}

/**
 * X = Σ R·Wx, Y = Σ R·Wy, Z = Σ R·Wz for reflectance factors R as fractions on the grid of the weights.
 * Throws `wrong-length` when there are more or fewer reflectances than weights. Source: CIE 15, ASTM E308.
 */
export function xyzFromReflectance(reflectance: ArrayLike<number>, { x, y, z }: BandWeights): Xyz {
  if (reflectance.length !== x.length) {
    throw new InputError(
      "wrong-length",
      "reflectance",
      `${reflectance.length} bands where the weights have ${x.length}`,
    );
  }
  let sumX = 0;
  let sumY = 0;
  let sumZ = 0;
  for (let i = 0; i < x.length; i++) {
    const r = reflectance[i];
    sumX += r * x[i];
    sumY += r * y[i];
    sumZ += r * z[i];
  }
  return [sumX, sumY, sumZ];
}
