import { InputError } from "../../core/InputError.js";

/**
 * Refuses a matrix whose length is not rows·columns (`wrong-length`) or which holds an entry that is not finite
 * (`not-finite`, with its place). A vector is a matrix of one column. It writes a path only when it refuses, so
 * that inner loops can afford it.
 */
export function checkMatrix(values: ArrayLike<number>, rows: number, columns: number, path: string): void {
  if (values.length !== rows * columns) {
    throw new InputError(
      "wrong-length",
      path,
      `${values.length} numbers where ${rows} × ${columns} are needed`,
    );
  }
  for (let i = 0; i < values.length; i++) {
    if (!Number.isFinite(values[i])) {
      throw new InputError("not-finite", `${path}[${i}]`, `${values[i]} is not a finite number`);
    }
  }
}
