import { InputError } from "../core/InputError.js";
import type { Geometry } from "../surface/geometry.js";
import type { TonerSet } from "./tonerSet.js";

/** K and S of a toner set in the order of its toners, for arithmetic. `size` = geometries × bands. */
export interface Coefficients {
  readonly toners: number;
  readonly size: number;
  /** Toner-major: K of toner j at band b of geometry g is `k[j·size + g·bands + b]`, per gram as poured. */
  readonly k: Float64Array;
  readonly s: Float64Array;
}

/**
 * Packs K·f and S·f of the wanted geometries; f is the strength of the can in use. Throws `unknown-geometry` for
 * one at which a toner has no spectrum.
 */
export function packCoefficients(set: TonerSet, geometries: readonly Geometry[]): Coefficients {
  const bands = set.grid.count;
  const size = geometries.length * bands;
  const toners = set.toners.length;
  const pack = (key: "k" | "s"): Float64Array => {
    const packed = new Float64Array(toners * size);
    set.toners.forEach((toner, j) => {
      const strength = toner.strength ?? 1;
      geometries.forEach((geometry, g) => {
        const spectrum = toner[key][geometry];
        if (!spectrum) {
          throw new InputError("unknown-geometry", `toners[${j}].${key}`, `no spectrum at "${geometry}"`);
        }
        for (let b = 0; b < bands; b++) packed[j * size + g * bands + b] = strength * spectrum[b];
      });
    });
    return packed;
  };
  return { toners, size, k: pack("k"), s: pack("s") };
}

/**
 * Mixture K = Σ gⱼfⱼKⱼ, S = Σ gⱼfⱼSⱼ over all geometries and bands, into `k` and `s` (length `size`).
 * Amounts in grams, any sign. Source: Duncan 1940, 1949.
 */
export function mix(
  coefficients: Coefficients,
  grams: ArrayLike<number>,
  k: Float64Array,
  s: Float64Array,
): void {
  const { toners, size, k: kOf, s: sOf } = coefficients;
  // Three bands at a time (no grid has fewer): six sums in registers that do not wait for one another. The last
  // three may repeat bands already done.
  for (let first = 0; first < size; first += 3) {
    const b = Math.min(first, size - 3);
    let k0 = 0;
    let k1 = 0;
    let k2 = 0;
    let s0 = 0;
    let s1 = 0;
    let s2 = 0;
    for (let j = 0, i = b; j < toners; j++, i += size) {
      const amount = grams[j];
      if (amount === 0) continue;
      k0 += amount * kOf[i];
      k1 += amount * kOf[i + 1];
      k2 += amount * kOf[i + 2];
      s0 += amount * sOf[i];
      s1 += amount * sOf[i + 1];
      s2 += amount * sOf[i + 2];
    }
    k[b] = k0;
    k[b + 1] = k1;
    k[b + 2] = k2;
    s[b] = s0;
    s[b + 1] = s1;
    s[b + 2] = s2;
  }
}
