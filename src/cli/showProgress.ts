import type { Progress } from "../characterisation/characterise.js";
import type { Terminal } from "./terminal.js";

/** A line on the standard error that is written over and wiped in the end; nothing where nobody watches. */
export function showProgress({ isWatched, writeError }: Terminal): {
  readonly show: (progress: Progress) => void;
  readonly clear: () => void;
} {
  if (!isWatched) return { show: () => {}, clear: () => {} };
  const wipe = "\r\u001b[K";
  return {
    show: ({ stage, detail }) => writeError(`${wipe}${stage}: ${detail}`),
    clear: () => writeError(wipe),
  };
}
