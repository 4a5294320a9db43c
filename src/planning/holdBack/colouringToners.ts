import type { ForwardModel } from "../../forward/forwardModel.js";

/** The toners that absorb or scatter anything, as indices into the toner set: a clear binder does neither. */
export function colouringToners({ coefficients: { toners, size, k, s } }: ForwardModel): readonly number[] {
  return Array.from({ length: toners }, (_, j) => j).filter((j) => {
    for (let place = j * size; place < (j + 1) * size; place++) if (k[place] > 0 || s[place] > 0) return true;
    return false;
  });
}
