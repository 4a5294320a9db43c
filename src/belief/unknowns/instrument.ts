import type { Unknown } from "../unknown.js";

/** Sd of the bias of a colorimeter, in L*, a* and b* each (common practice, no source). */
export const BIAS_SD = 0.7;

/** ln of how large differences look to one eye, against the scale that it grades by, and its standard deviation. */
export interface EyeGain {
  readonly logGain: number;
  readonly sd: number;
}

/** An eye of which nothing is known (design value). */
export const UNKNOWN_EYE: EyeGain = Object.freeze({ logGain: 0, sd: 0.2 });

/** What an instrument is off by, the same for all that it saw: in L*, a* and b*. */
export function instrumentUnknowns(): readonly Unknown[] {
  return Array.from({ length: 3 }, () => ({ owner: "instrument", effects: [] }));
}

/** How large differences look to one observer. */
export function observerUnknown(): Unknown {
  return { owner: "observer", effects: [] };
}
