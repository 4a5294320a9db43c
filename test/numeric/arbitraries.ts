import fc from "fast-check";

/**
 * Numbers of ordinary size: whole ones, for ties and exact dependence, and others. None is tiny, or two constraints
 * might meet at an angle that no double can tell from none.
 */
export const entry = fc.oneof(
  fc.integer({ min: -3, max: 3 }),
  fc.integer({ min: -200, max: 200 }).map((value) => value / 64),
);

export interface System {
  readonly rows: number;
  readonly columns: number;
  readonly matrix: Float64Array;
  readonly rightHandSide: Float64Array;
}

export const vector = (length: number) =>
  fc.array(entry, { minLength: length, maxLength: length }).map((values) => Float64Array.from(values));

/** A matrix with a right-hand side. */
export const system = (limits: {
  maxRows: number;
  maxColumns: number;
  tall?: "tall";
}): fc.Arbitrary<System> =>
  fc
    .record({
      rows: fc.integer({ min: 1, max: limits.maxRows }),
      columns: fc.integer({ min: 1, max: limits.maxColumns }),
    })
    .filter(({ rows, columns }) => limits.tall === undefined || rows >= columns)
    .chain(({ rows, columns }) =>
      fc.record({
        rows: fc.constant(rows),
        columns: fc.constant(columns),
        matrix: vector(rows * columns),
        rightHandSide: vector(rows),
      }),
    );
