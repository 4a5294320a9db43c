import { beliefOf } from "../../belief/belief.js";
import { beliefSizesOf } from "../../belief/beliefSizes.js";
import { canPrior } from "../../belief/canPrior.js";
import { checkScatters } from "../../belief/checkScatters.js";
import { type FilmBelief, filmBelief } from "../../belief/filmBelief.js";
import { inferPanels } from "../../belief/inferPanels.js";
import { InputError } from "../../core/InputError.js";
import type { Warning } from "../../core/warning.js";
import { anchorToCard, censoredBands, usableInternal } from "../../forward/anchor.js";
import { createForwardModel, type ForwardModel } from "../../forward/forwardModel.js";
import { absorptionRatio } from "../../optics/infiniteFilm.js";
import { fadedPaint } from "../../problem/fadedPaint.js";
import { seenAtOfCard } from "../../problem/geometriesSeen.js";
import { createWeights, seenColours } from "../../problem/seenColours.js";
import { checkGeometries, createScene } from "../../scene/createScene.js";
import { censoredWarnings } from "../../scene/readingWarnings.js";
import type { Geometry } from "../../surface/geometry.js";
import type { Reading } from "../../surface/reading.js";
import { measuredSlope } from "../../surface/saunderson.js";
import { atFullStrength } from "../../toners/atFullStrength.js";
import { gramsInOrder } from "../../toners/pot.js";
import type { CheckedPlanJob } from "./planJob.js";
import type { PlanOptions } from "./planOptions.js";

/** A panel for arithmetic: what it reads, and ln(K/S) of that with its standard deviation, band by band. */
export interface PanelData {
  readonly reflectance: Float64Array;
  readonly logRatio: Float64Array;
  readonly sd: Float64Array;
}

/** A formula for arithmetic: the model, tied to its fresh colour where that was read, and its grams. */
export interface FormulaData {
  readonly model: ForwardModel;
  readonly grams: Float64Array;
}

/** A plan's job made ready: everything on the bands and at the geometries that all readings share. */
export interface PlanProblem {
  /** Of the cans as they are said to be, tied to nothing. */
  readonly model: ForwardModel;
  readonly panels: readonly PanelData[];
  readonly formulas: readonly FormulaData[];
  readonly warnings: readonly Warning[];
}

/** Throws `unknown-geometry` where the panels share no geometry, or a fresh reading lacks one of theirs. */
export function preparePlan(job: CheckedPlanJob): PlanProblem {
  const geometries = sharedGeometries(job);
  const surfaces = [
    ...job.panels.flatMap(({ readings }, i) =>
      readings.length > 0 ? [{ readings, path: `panels[${i}].readings` }] : [],
    ),
    ...job.formulas.flatMap(({ readings }, i) =>
      readings ? [{ readings, path: `formulas[${i}].readings` }] : [],
    ),
  ];
  const scene = createScene(job.toners, surfaces, (geometry) => geometries.includes(geometry), "panels");
  const { grid } = scene;
  const model = createForwardModel(scene.toners, job.viewing, geometries);
  const aligned = (readings: readonly Reading[], path: string) => scene.aligned({ readings, path });
  const formulas = job.formulas.map(({ grams, readings }, i) => {
    const amounts = gramsInOrder(grams, job.toners.toners);
    checkScatters(model, amounts, `formulas[${i}].grams`);
    if (!readings) return { model, grams: amounts };
    const fresh = aligned(readings, `formulas[${i}].readings`);
    return { model: anchorToCard(model, amounts, fresh), grams: amounts };
  });
  const panels = job.panels.map(({ readings }, i) =>
    readings.length > 0
      ? panelData(model, { reflectance: aligned(readings, `panels[${i}].readings`) }, job.options)
      : panelData(model, inferredPanel(job, { model, formulas }, i), job.options),
  );
  const warnings = [
    ...scene.warnings,
    ...panels.flatMap(({ reflectance }, i) =>
      (job.panels[i].readings.length > 0 ? model.surfaces : []).flatMap((surface, g) => {
        const values = reflectance.subarray(g * grid.count, (g + 1) * grid.count);
        return censoredWarnings(censoredBands(values, surface), grid, `panels[${i}].readings`);
      }),
    ),
  ];
  return { model, panels, formulas, warnings };
}

function sharedGeometries({ toners, panels }: CheckedPlanJob): readonly Geometry[] {
  panels.forEach(({ readings, colours }, i) => {
    checkGeometries(toners, { readings, path: `panels[${i}].readings` });
    checkGeometries(toners, { readings: colours, path: `panels[${i}].colours` });
  });
  const shared = toners.surfaces
    .map(({ geometry }) => geometry)
    .filter((geometry) => panels.every((panel) => seenAtOfCard(panel)?.includes(geometry)));
  if (shared.length > 0) return shared;
  throw new InputError("unknown-geometry", "panels", "there is no geometry at which all panels were read");
}

/** The spectrum of a panel of which only colours are known, from the formula of the plan: the first, where none is named. */
function inferredPanel(
  job: CheckedPlanJob,
  { model, formulas }: Pick<PlanProblem, "model" | "formulas">,
  i: number,
): FilmBelief {
  const { toners } = job.toners;
  const named = job.formulas.findIndex(({ name }) => name === job.formula);
  const { grams } = formulas[Math.max(0, named)];
  const sizes = beliefSizesOf(job.toners);
  const free = createForwardModel(atFullStrength(model.set), job.viewing, model.geometries);
  const prior = { model: free, ...canPrior(job.toners, sizes.strengthSd), sizes };
  const pot = fadedPaint(toners, grams, job.fadePriors);
  const colours = seenColours(free, createWeights(free), job.panels[i].colours);
  const panel = { spectra: [], colours, comparisons: [], pot };
  return filmBelief(inferPanels(beliefOf(prior, []), [panel]).belief, 0);
}

/** Reflectance is held below this: nearer to white K/S is noise alone. */
const WHITEST = 0.999;

/** ln(K/S) of a reading; its variance is that of the reading carried over, and what the model misses in a band. */
function panelData(
  model: ForwardModel,
  { reflectance, sd: doubt }: { readonly reflectance: Float64Array; readonly sd?: Float64Array },
  { reflectanceSd, bandSd }: PlanOptions,
): PanelData {
  const bands = model.set.grid.count;
  const logRatio = new Float64Array(reflectance.length);
  const sd = new Float64Array(reflectance.length);
  reflectance.forEach((measured, b) => {
    const surface = model.surfaces[Math.floor(b / bands)];
    const inside = Math.min(WHITEST, usableInternal(measured, surface));
    const slope = (1 + inside) / (inside * (1 - inside)) / measuredSlope(inside, surface);
    logRatio[b] = Math.log(absorptionRatio(inside));
    sd[b] = Math.hypot(slope * reflectanceSd, slope * (doubt?.[b] ?? 0), bandSd);
  });
  return { reflectance, logRatio, sd };
}
