/**
 * Fresnel reflectance of unpolarised light at a smooth boundary, for relative index n = n_beyond/n_here > 0 and
 * incidence cosine 0…1 on this side; 1 beyond the critical angle. ½(r_s² + r_p²) (Fresnel 1823; Born & Wolf).
 */
export function fresnelReflectance(cosine: number, index: number): number {
  const sineSquareBeyond = (1 - cosine * cosine) / (index * index);
  if (sineSquareBeyond >= 1) return 1;
  const cosineBeyond = Math.sqrt(1 - sineSquareBeyond);
  const perpendicular = (cosine - index * cosineBeyond) / (cosine + index * cosineBeyond);
  const parallel = (index * cosine - cosineBeyond) / (index * cosine + cosineBeyond);
  return (perpendicular * perpendicular + parallel * parallel) / 2;
}

/**
 * Reflectance of a smooth surface of index n ≥ 1.01 for perfectly diffuse light from outside, closed form
 * (Walsh 1926, in Ryde 1931 and Duntley 1942). n = 1.5 gives 0.0918. Good to 1e−11 relative at n = 1.01;
 * nearer to 1 the terms cancel too far.
 */
export function diffuseExternalReflectance(n: number): number {
  const n2 = n * n;
  const sum = n2 + 1;
  const difference = (n - 1) * (n + 1);
  const n4Less1 = sum * difference;
  return (
    0.5 +
    ((n - 1) * (3 * n + 1)) / (6 * (n + 1) * (n + 1)) +
    ((n2 * difference * difference) / sum ** 3) * Math.log((n - 1) / (n + 1)) -
    (2 * n * n2 * (n2 + 2 * n - 1)) / (sum * n4Less1) +
    ((8 * n2 * n2 * (n2 * n2 + 1)) / (sum * n4Less1 * n4Less1)) * Math.log(n)
  );
}

/** The same from inside: 1 − (1 − r_ext)/n², since radiance grows by n² on entering (Judd 1942). n = 1.5: 0.596. */
export function diffuseInternalReflectance(n: number): number {
  return 1 - (1 - diffuseExternalReflectance(n)) / (n * n);
}
