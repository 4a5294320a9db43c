import type { Unknown } from "../unknown.js";

/** What was seen of one film, or of one beside another: how an operator turns reflectances into residuals in units of their sd. */
export interface Observation {
  /** Which films, by their index in the scope. */
  readonly films: readonly number[];
  /** Unknowns that are no film's: those of an instrument or an eye. */
  readonly own: readonly Unknown[];
  /** Index of the geometry that it is seen at. */
  readonly geometry: number;
  readonly rows: number;
  /** `reflectances` in the order of `films`, `values` in the order of `own`. */
  look(reflectances: readonly Float64Array[], values: readonly number[]): Sight;
}

/** Bands from `from` to before `to`, counted over all geometries. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** An observation held against predicted reflectances. */
export interface Sight {
  /** (seen − predicted)/sd, row by row. */
  readonly residual: Float64Array;
  /**
   * Adds to `out` from `to` on, row by row, by what the prediction changes where the reflectance of `film` (its index in
   * `films`) changes by `change`, band by band, which is 0 outside `span`.
   */
  carry(film: number, change: Float64Array, span: Span, out: Float64Array, to: number): void;
  /** ∂(predicted/sd)/∂u of every unknown of `own`, row by row. */
  readonly byOwn: readonly Float64Array[];
}
