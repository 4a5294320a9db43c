import { InputError } from "../../core/InputError.js";

/** Throws `wrong-length` unless there is one value for each band of the grid. */
export function checkLength(list: ArrayLike<unknown>, count: number, path: string): void {
  if (list.length === count) return;
  throw new InputError("wrong-length", path, `${list.length} values for a grid of ${count} bands`);
}
