import type { Addition } from "../../correction/correction.js";

/** What of a correction is certified: its additions, as `correct` gives them or as they are typed. */
export interface Certified {
  readonly additions: readonly (Pick<Addition, "toner" | "grams"> &
    Partial<Pick<Addition, "gramsUnrounded">>)[];
}
