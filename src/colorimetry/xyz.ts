import { checkList, checkNumber } from "../core/check.js";
import { InputError } from "../core/InputError.js";

/** CIE tristimulus values; Y of the perfect diffuser is 100. */
export type Xyz = readonly [x: number, y: number, z: number];

/** What the reflectance of each band is multiplied with. */
export interface BandWeights {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly z: Float64Array;
}

/** Above this a reflectance factor is per cent, as in readings. */
const LARGEST_FRACTION = 2;

/**
 * X = Σ R·Wx, Y = Σ R·Wy, Z = Σ R·Wz for reflectance factors R as fractions on the grid of the weights. R above
 * `largest` (2; flake near the specular angle may need up to 20) is refused as `percent-not-fraction`. Throws
 * `wrong-length` when there are more or fewer reflectances than weights, `out-of-range`, `not-finite` and the like.
 * Source: CIE 15, ASTM E308.
 */
export function checkedXyzFromReflectance(
  reflectance: ArrayLike<number>,
  weights: BandWeights,
  largest = LARGEST_FRACTION,
): Xyz {
  const { x, y, z } = weights ?? {};
  const count = reflectance?.length;
  if (!(count > 0 && count === x?.length && count === y?.length && count === z?.length)) {
    const list = checkList(reflectance, "reflectance", { min: 1 });
    const counts = Object.entries({ x, y, z }).map(([axis, of]) => checkList(of, `weights.${axis}`).length);
    const reason = `${list.length} bands where x, y and z of the weights have ${counts.join(", ")}`;
    throw new InputError("wrong-length", "reflectance", reason);
  }
  for (let i = 0; i < count; i++) {
    const factor = reflectance[i];
    // Most bands are well in one comparison; the others get a reason and a place.
    if (!(factor >= 0 && factor <= largest && typeof factor === "number")) refuseFactor(factor, i, largest);
  }
  const xyz = xyzFromReflectance(reflectance, weights);
  checkNumber(xyz[0] + xyz[1] + xyz[2], "weights");
  return xyz;
}

function refuseFactor(factor: unknown, band: number, largest: number): never {
  const place = `reflectance[${band}]`;
  checkNumber(factor, place, { min: 0 });
  const reason = `${factor} looks like per cent: a fraction is needed here, at most ${largest}`;
  throw new InputError("percent-not-fraction", place, reason);
}

/** The same of any spectra, slopes too, that were looked at before. */
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
