import type { IlluminantName } from "../colorimetry/illuminant.js";

/** What to compare next by eye: the look that would tell most. */
export interface NextLook {
  readonly target: string;
  readonly card: string;
  readonly illuminant: IlluminantName;
}
