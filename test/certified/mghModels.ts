import type { Dual, DualModel } from "../../src/verification/dual.js";

const range = (count: number) => Array.from({ length: count }, (_, i) => i + 1);

/** e^(−t·x) */
const decay = (x: Dual, t: number) => x.times(-t).exp();

const bard = [0.14, 0.18, 0.22, 0.25, 0.29, 0.32, 0.35, 0.39, 0.37, 0.58, 0.73, 0.96, 1.34, 2.1, 4.39];
const gaussian = [0.0009, 0.0044, 0.0175, 0.054, 0.1295, 0.242, 0.3521, 0.3989];
const meyer = [
  34780, 28610, 23650, 19630, 16370, 13720, 11540, 9744, 8261, 7030, 6005, 5147, 4427, 3820, 3307, 2872,
];
const kowalikY = [0.1957, 0.1947, 0.1735, 0.16, 0.0844, 0.0627, 0.0456, 0.0342, 0.0323, 0.0235, 0.0246];
const kowalikU = [4, 2, 1, 0.5, 0.25, 0.167, 0.125, 0.1, 0.0833, 0.0714, 0.0625];
const osborne1 = [
  0.844, 0.908, 0.932, 0.936, 0.925, 0.908, 0.881, 0.85, 0.818, 0.784, 0.751, 0.718, 0.685, 0.658, 0.628,
  0.603, 0.58, 0.558, 0.538, 0.522, 0.506, 0.49, 0.478, 0.467, 0.457, 0.448, 0.438, 0.431, 0.424, 0.42, 0.414,
  0.411, 0.406,
];
const osborne2 = [
  1.366, 1.191, 1.112, 1.013, 0.991, 0.885, 0.831, 0.847, 0.786, 0.725, 0.746, 0.679, 0.608, 0.655, 0.616,
  0.606, 0.602, 0.626, 0.651, 0.724, 0.649, 0.649, 0.694, 0.644, 0.624, 0.661, 0.612, 0.558, 0.533, 0.495,
  0.5, 0.423, 0.395, 0.375, 0.372, 0.391, 0.396, 0.405, 0.428, 0.429, 0.523, 0.562, 0.607, 0.653, 0.672,
  0.708, 0.633, 0.668, 0.645, 0.632, 0.591, 0.559, 0.597, 0.625, 0.739, 0.71, 0.729, 0.72, 0.636, 0.581,
  0.428, 0.292, 0.162, 0.098, 0.054,
];

/** One Gaussian peak of Osborne 2. */
const peak = (height: Dual, width: Dual, centre: Dual, t: number) =>
  height.times(centre.minus(t).power(2).times(width).times(-1).exp());

/**
 * Residuals of Moré, Garbow & Hillstrom (1981) by the number of the collection in `mghProblems`. The formulas and
 * data are from memory; the tests hold them to the value at the start that the collection gives.
 */
export const mghModels: Readonly<Record<number, DualModel>> = {
  1: ([a, b]) => [b.minus(a.times(a)).times(10), a.times(-1).plus(1)],
  2: ([a, b]) => [
    a.plus(b.times(-1).plus(5).times(b).minus(2).times(b)).minus(13),
    a.plus(b.plus(1).times(b).minus(14).times(b)).minus(29),
  ],
  3: ([a, b]) => [a.times(b).times(1e4).minus(1), decay(a, 1).plus(decay(b, 1)).minus(1.0001)],
  4: ([a, b]) => [a.minus(1e6), b.minus(2e-6), a.times(b).minus(2)],
  5: ([a, b]) => [1.5, 2.25, 2.625].map((y, i) => a.times(b.power(i + 1).minus(1)).plus(y)),
  6: ([a, b]) =>
    range(10).map((i) =>
      decay(a, -i)
        .plus(decay(b, -i))
        .times(-1)
        .plus(2 + 2 * i),
    ),
  7: ([a, b, c]) => {
    const turns = b
      .over(a)
      .atan()
      .over(2 * Math.PI)
      .plus(a.value < 0 ? 0.5 : 0);
    const radius = a.times(a).plus(b.times(b)).sqrt();
    return [c.minus(turns.times(10)).times(10), radius.minus(1).times(10), c];
  },
  8: ([a, b, c]) =>
    bard.map((y, i) => {
      const u = i + 1;
      const v = 16 - u;
      const denominator = b.times(v).plus(c.times(Math.min(u, v)));
      return a.plus(denominator.power(-1).times(u)).times(-1).plus(y);
    }),
  9: ([a, b, c]) =>
    range(15).map((i) => {
      const y = gaussian[Math.min(i, 16 - i) - 1];
      const distance = c.times(-1).plus((8 - i) / 2);
      return a.times(distance.times(distance).times(b).over(-2).exp()).minus(y);
    }),
  10: ([a, b, c]) => meyer.map((y, i) => a.times(b.over(c.plus(50 + 5 * i)).exp()).minus(y)),
  12: ([a, b, c]) =>
    range(3).map((i) => {
      const t = i / 10;
      return decay(a, t)
        .minus(decay(b, t))
        .minus(c.times(Math.exp(-t) - Math.exp(-10 * t)));
    }),
  13: ([a, b, c, d]) => [
    a.plus(b.times(10)),
    c.minus(d).times(Math.sqrt(5)),
    b.minus(c.times(2)).power(2),
    a.minus(d).power(2).times(Math.sqrt(10)),
  ],
  14: ([a, b, c, d]) => [
    b.minus(a.times(a)).times(10),
    a.times(-1).plus(1),
    d.minus(c.times(c)).times(Math.sqrt(90)),
    c.times(-1).plus(1),
    b.plus(d).minus(2).times(Math.sqrt(10)),
    b.minus(d).over(Math.sqrt(10)),
  ],
  15: ([a, b, c, d]) =>
    kowalikY.map((y, i) => {
      const u = kowalikU[i];
      const numerator = a.times(b.times(u).plus(u * u));
      return numerator
        .over(
          c
            .times(u)
            .plus(u * u)
            .plus(d),
        )
        .times(-1)
        .plus(y);
    }),
  16: ([a, b, c, d]) =>
    range(20).map((i) => {
      const t = i / 5;
      const first = a.plus(b.times(t)).minus(Math.exp(t));
      const second = c.plus(d.times(Math.sin(t))).minus(Math.cos(t));
      return first.times(first).plus(second.times(second));
    }),
  17: ([a, b, c, d, e]) =>
    osborne1.map((y, i) => {
      const t = 10 * i;
      return a
        .plus(b.times(decay(d, t)))
        .plus(c.times(decay(e, t)))
        .times(-1)
        .plus(y);
    }),
  18: ([a, b, c, d, e, f]) =>
    range(13).map((i) => {
      const t = i / 10;
      const y = Math.exp(-t) - 5 * Math.exp(-10 * t) + 3 * Math.exp(-4 * t);
      return c
        .times(decay(a, t))
        .minus(d.times(decay(b, t)))
        .plus(f.times(decay(e, t)))
        .minus(y);
    }),
  19: ([a, b, c, d, e, f, g, h, p, q, r]) =>
    osborne2.map((y, i) => {
      const t = i / 10;
      return a
        .times(decay(e, t))
        .plus(peak(b, f, p, t))
        .plus(peak(c, g, q, t))
        .plus(peak(d, h, r, t))
        .times(-1)
        .plus(y);
    }),
};
