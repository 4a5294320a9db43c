import fc from "fast-check";

/** K or S, thickness, backing: one film and what it lies on. */
export interface FilmCase {
  readonly k: number;
  readonly s: number;
  readonly thickness: number;
  readonly backing: number;
}

/** 10^low … 10^high, even in the exponent (fast-check's doubles are even in their bits: mostly near 1). */
export const powerOfTen = (low: number, high: number): fc.Arbitrary<number> =>
  fc.integer({ min: low * 1000, max: high * 1000 }).map((thousandths) => 10 ** (thousandths / 1000));

const sometimesZero = (arbitrary: fc.Arbitrary<number>): fc.Arbitrary<number> =>
  fc.oneof({ weight: 30, arbitrary }, { weight: 1, arbitrary: fc.constant(0) });

const backing: fc.Arbitrary<number> = fc.oneof(
  { weight: 6, arbitrary: fc.integer({ min: 0, max: 1_000_000 }).map((millionths) => millionths / 1e6) },
  { weight: 1, arbitrary: fc.constantFrom(0, 1, 1 - 1e-9, 1e-9) },
);

/** Far beyond any paint: K, S ∈ {0} ∪ 10^[−12, 6], X ∈ 10^[−6, 3], Rg ∈ [0, 1]. */
export const extremeFilm: fc.Arbitrary<FilmCase> = fc.record({
  k: sometimesZero(powerOfTen(-12, 6)),
  s: sometimesZero(powerOfTen(-12, 6)),
  thickness: powerOfTen(-6, 3),
  backing,
});

/** What a paint may be: K 10^[−3, 1.5], S 10^[−2, 1.5] per unit thickness, X 10^[−1.5, 1]. */
export const paintFilm: fc.Arbitrary<FilmCase> = fc.record({
  k: powerOfTen(-3, 1.5),
  s: powerOfTen(-2, 1.5),
  thickness: powerOfTen(-1.5, 1),
  backing,
});
