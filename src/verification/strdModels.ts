import type { Dual } from "./dual.js";

/** Predicts one observation from the parameters b and the predictor x (Nelson: two predictors). */
export type StrdModel = (b: readonly Dual[], x: number, x2: number) => Dual;

const exponentials: StrdModel = (b, x) =>
  b[0]
    .times(b[1].times(-x).exp())
    .plus(b[2].times(b[3].times(-x).exp()))
    .plus(b[4].times(b[5].times(-x).exp()));

const bell = (height: Dual, centre: Dual, width: Dual, x: number) =>
  height.times(centre.minus(x).over(width).power(2).times(-1).exp());

const gauss: StrdModel = (b, x) =>
  b[0]
    .times(b[1].times(-x).exp())
    .plus(bell(b[2], b[3], b[4], x))
    .plus(bell(b[5], b[6], b[7], x));

const chwirut: StrdModel = (b, x) =>
  b[0]
    .times(-x)
    .exp()
    .over(b[1].plus(b[2].times(x)));

const cubicRatio: StrdModel = (b, x) => {
  const numerator = b[0]
    .plus(b[1].times(x))
    .plus(b[2].times(x ** 2))
    .plus(b[3].times(x ** 3));
  const denominator = b[4]
    .times(x)
    .plus(b[5].times(x ** 2))
    .plus(b[6].times(x ** 3))
    .plus(1);
  return numerator.over(denominator);
};

/** a·cos(2πx/period) + b·sin(2πx/period) */
const wave = (a: Dual, b: Dual, period: Dual, x: number) => {
  const angle = period.power(-1).times(2 * Math.PI * x);
  return a.times(angle.cos()).plus(b.times(angle.sin()));
};

/** The models of the NIST StRD non-linear regression problems, as printed in their headers. */
export const STRD_MODELS: Readonly<Record<string, StrdModel>> = {
  Misra1a: (b, x) => b[0].times(b[1].times(-x).exp().times(-1).plus(1)),
  Misra1b: (b, x) =>
    b[0].times(
      b[1]
        .times(x / 2)
        .plus(1)
        .power(-2)
        .times(-1)
        .plus(1),
    ),
  Misra1c: (b, x) =>
    b[0].times(
      b[1]
        .times(2 * x)
        .plus(1)
        .power(-0.5)
        .times(-1)
        .plus(1),
    ),
  Misra1d: (b, x) => b[0].times(b[1]).times(x).over(b[1].times(x).plus(1)),
  Chwirut1: chwirut,
  Chwirut2: chwirut,
  DanWood: (b, x) => b[0].times(b[1].times(Math.log(x)).exp()),
  Lanczos1: exponentials,
  Lanczos2: exponentials,
  Lanczos3: exponentials,
  Gauss1: gauss,
  Gauss2: gauss,
  Gauss3: gauss,
  Kirby2: (b, x) =>
    b[0]
      .plus(b[1].times(x))
      .plus(b[2].times(x * x))
      .over(
        b[3]
          .times(x)
          .plus(b[4].times(x * x))
          .plus(1),
      ),
  Hahn1: cubicRatio,
  Thurber: cubicRatio,
  MGH09: (b, x) =>
    b[0].times(b[1].times(x).plus(x * x)).over(
      b[2]
        .times(x)
        .plus(x * x)
        .plus(b[3]),
    ),
  MGH10: (b, x) => b[0].times(b[1].over(b[2].plus(x)).exp()),
  MGH17: (b, x) => b[0].plus(b[1].times(b[3].times(-x).exp())).plus(b[2].times(b[4].times(-x).exp())),
  Roszman1: (b, x) => b[0].minus(b[1].times(x)).minus(b[2].over(b[3].times(-1).plus(x)).atan().over(Math.PI)),
  ENSO: (b, x) => {
    const year = 2 * Math.PI * (x / 12);
    return b[0]
      .plus(b[1].times(Math.cos(year)))
      .plus(b[2].times(Math.sin(year)))
      .plus(wave(b[4], b[5], b[3], x))
      .plus(wave(b[7], b[8], b[6], x));
  },
  Rat42: (b, x) => b[0].over(b[1].minus(b[2].times(x)).exp().plus(1)),
  Rat43: (b, x) => b[0].times(b[1].minus(b[2].times(x)).exp().plus(1).log().over(b[3]).times(-1).exp()),
  Bennett5: (b, x) => b[0].times(b[1].plus(x).log().over(b[2]).times(-1).exp()),
  BoxBOD: (b, x) => b[0].times(b[1].times(-x).exp().times(-1).plus(1)),
  Eckerle4: (b, x) => b[0].over(b[1]).times(b[2].minus(x).over(b[1]).power(2).times(-0.5).exp()),
  Nelson: (b, x, x2) => b[0].minus(b[1].times(x).times(b[2].times(-x2).exp())),
};
