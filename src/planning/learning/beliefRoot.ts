import { choleskyInPlace } from "../../numeric/triangularSolve.js";
import type { Belief } from "./potModel.js";

/** Smallest variance of ln strength: a can known to a millionth is known. */
const LEAST_VARIANCE = 1e-12;

/** Lower triangle with C = L·Lᵀ, row-major; a hair on the diagonal keeps cans that are known exactly regular. */
export function beliefRoot({ mean: { length: size }, covariance }: Belief): Float64Array {
  const root = covariance.slice();
  for (let j = 0; j < size; j++) root[j * size + j] += LEAST_VARIANCE;
  choleskyInPlace(root, 0, size);
  for (let i = 0; i < size; i++) root.fill(0, i * size + i + 1, (i + 1) * size);
  return root;
}

/** ln strength in the world of standard normal u: mean + L·u. */
export function strengthsAt({ mean }: Belief, root: Float64Array, u: Float64Array, out: Float64Array): void {
  const size = mean.length;
  for (let i = 0; i < size; i++) {
    let sum = mean[i];
    for (let j = 0; j <= i; j++) sum += root[i * size + j] * u[j];
    out[i] = sum;
  }
}
