/**
 * The forward model as a textbook prints it, on plain arrays: K/S of the mix, R = 1 + q − √(q² + 2q), Saunderson,
 * a sum for each of X, Y, Z, CIE Lab. For every geometry its reflectance, XYZ and Lab.
 */
export function plainForward({ surfaces, toners }, grams, weights) {
  return surfaces.map(({ geometry, k1, k2 }) => {
    const mixed = (key, band) =>
      toners.reduce((total, toner, j) => total + grams[j] * toner[key][geometry][band], 0);
    const reflectance = Array.from(weights.x, (_, band) => {
      const q = mixed("k", band) / mixed("s", band);
      const inside = 1 + q - Math.sqrt(q * q + 2 * q);
      return ((1 - k1) * (1 - k2) * inside) / (1 - k2 * inside);
    });
    return { reflectance, ...plainColour(reflectance, weights) };
  });
}

/** XYZ and Lab of one reflectance. */
export function plainColour(reflectance, { x, y, z, white }) {
  const xyz = [x, y, z].map((weight) => weight.reduce((total, w, band) => total + w * reflectance[band], 0));
  const [fx, fy, fz] = xyz.map((value, axis) => {
    const t = value / white[axis];
    return t > (6 / 29) ** 3 ? Math.cbrt(t) : t / (3 * (6 / 29) ** 2) + 4 / 29;
  });
  return { xyz, lab: [116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)] };
}

/** Its slopes by central differences: for every toner, for every geometry, ∂R/∂g and ∂Lab/∂g. */
export function plainJacobian(set, grams, weights) {
  return set.toners.map((_, j) => {
    const step = 1e-4 * grams[j];
    const moved = (by) =>
      plainForward(
        set,
        grams.map((amount, i) => (i === j ? amount + by : amount)),
        weights,
      );
    const more = moved(step);
    const less = moved(-step);
    const slopes = (of, g) => more[g][of].map((value, i) => (value - less[g][of][i]) / (2 * step));
    return more.map((_, g) => ({ reflectance: slopes("reflectance", g), lab: slopes("lab", g) }));
  });
}
