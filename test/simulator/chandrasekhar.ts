import { gauss } from "./quadrature.js";

/**
 * Chandrasekhar's H(μ) for isotropic scattering of albedo ω, from its own non-linear integral equation in the form
 * 1/H(μ) = √(1 − ω) + (ω/2)∫μ'H(μ')/(μ + μ')dμ' (Radiative Transfer, 1950, from memory), iterated to rest. Shares
 * nothing with doubling but the nodes of its integral.
 */
export function hFunction(albedo: number): (cosine: number) => number {
  const { nodes, weights } = gauss(40, 0, 1);
  const root = Math.sqrt(1 - albedo);
  const from = (values: readonly number[], cosine: number) => {
    const integral = nodes.reduce(
      (sum, node, i) => sum + (weights[i] * node * values[i]) / (cosine + node),
      0,
    );
    return 1 / (root + (albedo / 2) * integral);
  };
  let values = nodes.map(() => 1);
  for (let i = 0; i < 4000; i++) {
    // The mean of two steps damps the swing between over and under.
    values = values.map((value, at) => (value + from(values, nodes[at])) / 2);
  }
  return (cosine) => from(values, cosine);
}
