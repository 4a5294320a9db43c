import { Decimal } from "decimal.js";

/** Reflectance over ideal black and over a backing, and transmittance, each to many digits. */
export interface PreciseFilm {
  readonly r0: Decimal;
  readonly r: Decimal;
  readonly t: Decimal;
}

/** Decimal arithmetic of its own precision, apart from the shared default. */
export const arithmetic = (digits: number): typeof Decimal =>
  Decimal.clone({ precision: digits, defaults: true });

/** The very number a double stands for; decimal.js itself reads the shortest decimal that rounds to it. */
export function exactly(real: typeof Decimal, value: Decimal.Value): Decimal {
  if (typeof value !== "number") return new real(value);
  let whole = value;
  let halvings = 0;
  for (; !Number.isInteger(whole); halvings++) whole *= 2;
  return new real(whole).div(new real(2).pow(halvings));
}

/** Past this u, T is below 1e−800 and coth u differs from 1 by less than 1e−1700: nothing a double could show. */
const HIDES = 2000;

/**
 * The textbook film, Kubelka 1948: a = 1 + K/S, b = √(a²−1), R = [1 − Rg(a − b·coth bSX)]/[a + b·coth bSX − Rg],
 * T = b/(a·sinh bSX + b·cosh bSX), with the separate limits for K = 0 and S = 0. It cancels by up to 36 digits over
 * the range of the tests; the digits of the arithmetic must leave enough.
 */
export function kubelkaFilm(
  real: typeof Decimal,
  k: Decimal.Value,
  s: Decimal.Value,
  thickness: Decimal.Value,
  backing: Decimal.Value,
): PreciseFilm {
  const [K, S, X, Rg] = [k, s, thickness, backing].map((value) => exactly(real, value));
  if (S.isZero()) {
    const t = K.times(X).gt(HIDES) ? new real(0) : K.times(X).neg().exp();
    return { r0: new real(0), r: Rg.times(t).times(t), t };
  }
  if (K.isZero()) {
    const m = S.times(X);
    const r = m.minus(Rg.times(m.minus(1))).div(m.plus(1).minus(m.times(Rg)));
    return { r0: m.div(m.plus(1)), r, t: new real(1).div(m.plus(1)) };
  }
  const a = S.plus(K).div(S);
  const b = a.times(a).minus(1).sqrt();
  const u = b.times(S).times(X);
  if (u.gt(HIDES)) {
    const r0 = new real(1).div(a.plus(b));
    return { r0, r: r0, t: new real(0) };
  }
  const e = u.exp();
  const sinh = e.minus(new real(1).div(e)).div(2);
  const cosh = e.plus(new real(1).div(e)).div(2);
  const bCoth = b.times(cosh).div(sinh);
  const r = new real(1).minus(Rg.times(a.minus(bCoth))).div(a.plus(bCoth).minus(Rg));
  return {
    r0: new real(1).div(a.plus(bCoth)),
    r,
    t: b.div(a.times(sinh).plus(b.times(cosh))),
  };
}

/** |actual − exact| ÷ |exact|; 0 when both are zero. */
export function relativeError(actual: number, exact: Decimal): number {
  if (exact.isZero()) return actual === 0 ? 0 : Number.POSITIVE_INFINITY;
  return exact.minus(actual).div(exact).abs().toNumber();
}
