const INNER = Math.sqrt(5 - 2 * Math.sqrt(10 / 7)) / 3;
const OUTER = Math.sqrt(5 + 2 * Math.sqrt(10 / 7)) / 3;
const RULE: readonly (readonly [number, number])[] = [
  [-OUTER, (322 - 13 * Math.sqrt(70)) / 900],
  [-INNER, (322 + 13 * Math.sqrt(70)) / 900],
  [0, 128 / 225],
  [INNER, (322 + 13 * Math.sqrt(70)) / 900],
  [OUTER, (322 - 13 * Math.sqrt(70)) / 900],
];

/** ∫ f over [low, high] by five-point Gauss–Legendre on 500 equal parts. */
function integrate(f: (x: number) => number, low: number, high: number): number {
  const parts = 500;
  const half = (high - low) / (2 * parts);
  let sum = 0;
  for (let part = 0; part < parts; part++) {
    const middle = low + (2 * part + 1) * half;
    for (const [node, weight] of RULE) sum += weight * f(middle + half * node);
  }
  return sum * half;
}

/** Fresnel's sine and tangent laws, from the two angles. */
function fresnelByAngles(incidence: number, refraction: number): number {
  const perpendicular = Math.sin(incidence - refraction) / Math.sin(incidence + refraction);
  const parallel = Math.tan(incidence - refraction) / Math.tan(incidence + refraction);
  return (perpendicular ** 2 + parallel ** 2) / 2;
}

/** r_ext = ∫₀^{π/2} F(θ) sin 2θ dθ. */
export function integratedExternal(n: number): number {
  return integrate(
    (angle) => fresnelByAngles(angle, Math.asin(Math.sin(angle) / n)) * Math.sin(2 * angle),
    0,
    Math.PI / 2,
  );
}

/** r_int: all of it beyond the critical angle, F before; θ = θc(1 − t²) smooths the root at θc. */
export function integratedInternal(n: number): number {
  const critical = Math.asin(1 / n);
  const before = integrate(
    (t) => {
      const angle = critical * (1 - t * t);
      const refraction = Math.asin(Math.min(1, n * Math.sin(angle)));
      return fresnelByAngles(angle, refraction) * Math.sin(2 * angle) * 2 * critical * t;
    },
    0,
    1,
  );
  return before + Math.cos(critical) ** 2;
}
