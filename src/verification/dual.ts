/**
 * Forward-mode derivatives for test problems: a value with its gradient. A model is written once, as in the
 * paper, and gives both its residuals and its exact Jacobian.
 */
export class Dual {
  constructor(
    readonly value: number,
    readonly gradient: Float64Array,
  ) {}

  /** f(this), given f and f′ at the value. */
  private through(value: number, slope: number): Dual {
    return new Dual(
      value,
      this.gradient.map((g) => slope * g),
    );
  }

  private combined(other: Dual, value: number, mine: number, theirs: number): Dual {
    return new Dual(
      value,
      this.gradient.map((g, j) => mine * g + theirs * other.gradient[j]),
    );
  }

  plus(other: Dual | number): Dual {
    if (typeof other === "number") return this.through(this.value + other, 1);
    return this.combined(other, this.value + other.value, 1, 1);
  }

  minus(other: Dual | number): Dual {
    if (typeof other === "number") return this.through(this.value - other, 1);
    return this.combined(other, this.value - other.value, 1, -1);
  }

  times(other: Dual | number): Dual {
    if (typeof other === "number") return this.through(this.value * other, other);
    return this.combined(other, this.value * other.value, other.value, this.value);
  }

  over(other: Dual | number): Dual {
    if (typeof other === "number") return this.through(this.value / other, 1 / other);
    const quotient = this.value / other.value;
    return this.combined(other, quotient, 1 / other.value, -quotient / other.value);
  }

  exp(): Dual {
    const value = Math.exp(this.value);
    return this.through(value, value);
  }

  log(): Dual {
    return this.through(Math.log(this.value), 1 / this.value);
  }

  sqrt(): Dual {
    const value = Math.sqrt(this.value);
    return this.through(value, 0.5 / value);
  }

  atan(): Dual {
    return this.through(Math.atan(this.value), 1 / (1 + this.value ** 2));
  }

  sin(): Dual {
    return this.through(Math.sin(this.value), Math.cos(this.value));
  }

  cos(): Dual {
    return this.through(Math.cos(this.value), -Math.sin(this.value));
  }

  /** this^exponent for a constant exponent. */
  power(exponent: number): Dual {
    return this.through(this.value ** exponent, exponent * this.value ** (exponent - 1));
  }
}

/** A residual vector as a function of the unknowns. */
export type DualModel = (b: readonly Dual[]) => readonly Dual[];

/** The residuals and the Jacobian that `levenbergMarquardt` asks for. */
export function differentiate(model: DualModel) {
  const evaluate = (x: Float64Array) =>
    model(
      Array.from(x, (value, j) => {
        const gradient = new Float64Array(x.length);
        gradient[j] = 1;
        return new Dual(value, gradient);
      }),
    );
  return {
    residuals: (x: Float64Array, out: Float64Array) => {
      evaluate(x).forEach((r, i) => {
        out[i] = r.value;
      });
    },
    jacobian: (x: Float64Array, out: Float64Array) => {
      evaluate(x).forEach((r, i) => {
        out.set(r.gradient, i * x.length);
      });
    },
  };
}
