import type { Progress } from "../characterisation/characterise.js";
import type { Screen } from "./screen.js";

/** A line on the standard error that is written over and wiped in the end; nothing where nobody watches. */
export function showProgress({ isWatched, overwriteError }: Screen): {
  readonly show: (progress: Progress) => void;
  readonly clear: () => void;
} {
  if (!isWatched) return { show: () => {}, clear: () => {} };
  return {
    show: ({ stage, detail }) => overwriteError(`${stage}: ${detail}`),
    clear: () => overwriteError(""),
  };
}
