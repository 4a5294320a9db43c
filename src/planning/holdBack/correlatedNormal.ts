import type { Random } from "../../numeric/probability/random.js";

/** A draw of mean 0 and covariance L·Lᵀ, L being lower triangular, row-major. */
export function correlatedNormal(lower: Float64Array, size: number, random: Random): Float64Array {
  const noise = Float64Array.from({ length: size }, () => random.normal());
  return noise.map((_, m) => {
    let sum = 0;
    for (let n = 0; n <= m; n++) sum += lower[m * size + n] * noise[n];
    return sum;
  });
}
