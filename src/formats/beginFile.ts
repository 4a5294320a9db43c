import type { IlluminantName } from "../colorimetry/illuminant.js";
import { LIMITS_DEFAULTS } from "../problem/limits.js";
import { TOLERANCE_DEFAULTS } from "../tolerance/tolerance.js";
import type { Grams } from "../toners/pot.js";
import type { JobFile } from "./jobFile.js";
import type { FileOfReadings } from "./readFiles.js";
import type { PlanFile } from "./readPlan.js";
import type { SamplesJson } from "./samplesFile.js";

/** What a file is begun from. */
export interface BeginFile {
  /** Names of the file of toners and of that of readings, as the new file will name them. */
  readonly toners: string;
  readonly files: readonly FileOfReadings[];
  /** Whom the colour has to please: the light that counts. */
  readonly light: IlluminantName;
  /** Names of readings that are to be matched. */
  readonly targets: readonly string[];
}

const observer = "1964-10";

/** JSON has no comments: what may be changed, and what was put in, is said in notes. */
const JUDGED =
  "the light and the observer that differences are judged under; further lights by name and weight";
const ALLOWED = "the largest ΔE00 that counts as a match, at a hard edge and in a blend: common practice";
const STEP = "what the scale shows; potMaxGrams, stockGrams and gramsPerDrop may be said too";

const common = ({ toners, files, light }: BeginFile) => ({
  toners,
  viewing: { observer, illuminants: [{ name: light, weight: 1 }] } as const,
  files,
  limits: { scaleStepGrams: LIMITS_DEFAULTS.scaleStepGrams },
  tolerance: TOLERANCE_DEFAULTS,
});

/** A job: a pot, the card that was sprayed from it, and what it is to match. */
export function beginJob(
  from: BeginFile,
  { pot, card }: { readonly pot: Grams; readonly card: string },
): JobFile & { readonly format: string; readonly version: number } {
  return {
    format: "masstone/job",
    version: 1,
    notes: {
      pot: "grams in the pot when the card was sprayed, before hardener and reducer",
      viewing: JUDGED,
      limits: STEP,
      tolerance: ALLOWED,
      targets: 'a panel that may be blended out has "role": "blend"',
    },
    ...common(from),
    pot,
    card: { name: card },
    targets: from.targets.map((name) => ({ name })),
  };
}

/** A plan: a formula, the panels as they look today, and how much paint they need. */
export function beginPlan(
  from: BeginFile,
  { formula, wantedGrams }: { readonly formula: Grams; readonly wantedGrams: number },
): Omit<PlanFile, "panels"> & { readonly panels: readonly object[] } {
  return {
    ...{ format: "masstone/plan", version: 1 },
    notes: {
      formulas:
        "what the panels may have been painted with, in any amount; further variants may stand beside it",
      viewing: JUDGED,
      wantedGrams: "paint for all panels together, before hardener and reducer",
      panels:
        'a panel that may be blended out has "role": "blend"; "share" is how much of the paint it takes',
      limits: STEP,
      tolerance: ALLOWED,
    },
    ...common(from),
    formulas: [{ name: "the formula", grams: formula }],
    panels: from.targets.map((name) => ({ name })),
    wantedGrams,
  };
}

/** Samples: what was mixed, of which toners, and where their readings are. */
export function beginSamples({
  files,
  ...rest
}: Pick<SamplesJson, "grid" | "surfaces" | "samples" | "backings"> & Pick<BeginFile, "files">): SamplesJson {
  const ids = [...new Set(rest.samples.flatMap(({ recipe }) => Object.keys(recipe)))];
  return {
    ...{ format: "masstone/samples", version: 1 },
    notes: {
      surfaces:
        "k1 and k2 of a resin of refractive index 1.5 (Saunderson 1942); leave fixed what you do not know better",
      toners:
        'say the "role" of each: white, black, chromatic, binder, flake or pearl; and its "name" for people',
      samples: "grams of each toner in the mix, in any amount; the readings are found in files by the name",
    },
    ...rest,
    toners: ids.map((id) => ({ id })),
    files,
  } as SamplesJson;
}
