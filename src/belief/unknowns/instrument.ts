import type { Unknown } from "../unknown.js";

/** Of what an instrument without a spectrum is off by, in L*, a* and b* each (common practice, no source). */
export const BIAS_SD = 0.7;

/** Of ln of how large a difference looks to one eye, against the scale that it grades by (design value). */
export const GAIN_SD = 0.2;

/** What an instrument is off by, the same for all that it saw: in L*, a* and b*. */
export function instrumentUnknowns(): readonly Unknown[] {
  return Array.from({ length: 3 }, () => ({ owner: "instrument", effects: [] }));
}

/** How large differences look to one observer. */
export function observerUnknown(): Unknown {
  return { owner: "observer", effects: [] };
}
