import type { Warning } from "../core/warning.js";
import type { SurfaceEstimate, TonerQuality } from "./characterisation.js";
import type { CheckedJob } from "./job.js";

interface Findings {
  readonly quality: readonly TonerQuality[];
  readonly surfaces: readonly SurfaceEstimate[];
  readonly modesLeftOut: number;
  readonly stopReason: string;
}

/** Largest sd of L*, a* or b* that the kept modes may leave out without a warning. */
const WORTH_SAYING = 0.1;

/** Warnings for whoever uses the toners: what the readings cannot tell, and what was left out. */
export function characterisationWarnings(
  { toners }: CheckedJob,
  { quality, surfaces, modesLeftOut, stopReason }: Findings,
): readonly Warning[] {
  const untold = quality.filter(({ notIdentifiable }) => notIdentifiable.length > 0).map(({ id }) => id);
  const warnings: Warning[] = [];
  if (untold.length > 0) {
    const names = toners.filter(({ id }) => untold.includes(id)).map(({ id }) => id);
    const message = `K or S of ${names.length} of ${toners.length} toners cannot be told at some bands; see quality`;
    warnings.push({ code: "not-identifiable", message, toners: names });
  }
  for (const { what, geometry, identifiable } of surfaces) {
    if (identifiable) continue;
    const message = `the readings cannot tell ${what} at ${geometry}; it is near what was given`;
    warnings.push({ code: "not-identifiable", message, path: "surfaces" });
  }
  if (modesLeftOut > WORTH_SAYING) {
    const message = `the modes of uncertainty leave out an sd of up to ${modesLeftOut.toFixed(2)} in L*, a* or b*`;
    warnings.push({ code: "uncertainty-cut", message });
  }
  if (["iteration-limit", "stalled", "stopped"].includes(stopReason)) {
    warnings.push({ code: "not-converged", message: `the fit stopped early (${stopReason})` });
  }
  return warnings;
}
