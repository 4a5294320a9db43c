import type { TonerSet } from "../../src/toners/tonerSet.js";

/** Three toners at two geometries on four bands, with different numbers everywhere. */
export const smallSet = (): TonerSet => ({
  grid: { start: 400, step: 100, count: 4 },
  surfaces: [
    { geometry: "d:8 specular included", k1: 0.04, k2: 0.6 },
    { geometry: "45:0", k1: 0.05, k2: 0.6, crossing: 0.41 },
  ],
  toners: [
    {
      id: "white",
      name: "titanium white",
      role: "white",
      k: { "d:8 specular included": [0.02, 0.01, 0.005, 0.004], "45:0": [0.03, 0.02, 0.01, 0] },
      s: { "d:8 specular included": [1.5, 1.4, 1.3, 1.2], "45:0": [1.1, 1.05, 1.01, 0.99] },
    },
    {
      id: "black",
      strength: 1.25,
      strengthSd: 0.1,
      k: { "d:8 specular included": [6, 6.1, 6.2, 6.3], "45:0": [5, 5.1, 5.2, 5.3] },
      s: { "d:8 specular included": [0.1, 0.11, 0.12, 0.13], "45:0": [0.2, 0.21, 0.22, 0.23] },
    },
    {
      id: "oxide red",
      role: "chromatic",
      k: { "d:8 specular included": [3, 2.5, 0.6, 0.3], "45:0": [3.5, 2.75, 0.7, 0.35] },
      s: { "d:8 specular included": [0.4, 0.5, 0.7, 0.8], "45:0": [0.45, 0.55, 0.75, 0.85] },
    },
  ],
});
