import { checkScatters } from "../../belief/checkScatters.js";
import { InputError } from "../../core/InputError.js";
import type { Warning } from "../../core/warning.js";
import { absorptionRatio } from "../../optics/infiniteFilm.js";
import { anchorToCard, censoredBands, usableInternal } from "../../prediction/anchor.js";
import { createForwardModel, type ForwardModel } from "../../prediction/forwardModel.js";
import { createScene } from "../../scene/createScene.js";
import { censoredWarnings } from "../../scene/readingWarnings.js";
import type { Geometry } from "../../surface/geometry.js";
import type { Reading } from "../../surface/reading.js";
import { measuredSlope } from "../../surface/saunderson.js";
import { gramsInOrder } from "../../toners/pot.js";
import { surfaceAt } from "../../toners/tonerSet.js";
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
    ...job.panels.map(({ readings }, i) => ({ readings, path: `panels[${i}].readings` })),
    ...job.formulas.flatMap(({ readings }, i) =>
      readings ? [{ readings, path: `formulas[${i}].readings` }] : [],
    ),
  ];
  const scene = createScene(job.toners, surfaces, (geometry) => geometries.includes(geometry), "panels");
  const { grid } = scene;
  const model = createForwardModel(scene.toners, job.viewing, geometries);
  const aligned = (readings: readonly Reading[], path: string) => scene.aligned({ readings, path });
  const panels = job.panels.map(({ readings }, i) =>
    panelData(model, aligned(readings, `panels[${i}].readings`), job.options),
  );
  const formulas = job.formulas.map(({ grams, readings }, i) => {
    const amounts = gramsInOrder(grams, job.toners.toners);
    checkScatters(model, amounts, `formulas[${i}].grams`);
    if (!readings) return { model, grams: amounts };
    const fresh = aligned(readings, `formulas[${i}].readings`);
    return { model: anchorToCard(model, amounts, fresh), grams: amounts };
  });
  const warnings = [
    ...scene.warnings,
    ...panels.flatMap(({ reflectance }, i) =>
      model.surfaces.flatMap((surface, g) => {
        const values = reflectance.subarray(g * grid.count, (g + 1) * grid.count);
        return censoredWarnings(censoredBands(values, surface), grid, `panels[${i}].readings`);
      }),
    ),
  ];
  return { model, panels, formulas, warnings };
}

function sharedGeometries({ toners, panels }: CheckedPlanJob): readonly Geometry[] {
  panels.forEach(({ readings }, i) => {
    readings.forEach(({ geometry }, r) => {
      surfaceAt(toners, geometry, `panels[${i}].readings[${r}].geometry`);
    });
  });
  const shared = toners.surfaces
    .map(({ geometry }) => geometry)
    .filter((geometry) => panels.every(({ readings }) => readings.some((one) => one.geometry === geometry)));
  if (shared.length > 0) return shared;
  throw new InputError("unknown-geometry", "panels", "there is no geometry at which all panels were read");
}

/** Nearer to white than this K/S is noise alone. */
const WHITEST = 0.999;

/** ln(K/S) of a reading; its variance is that of the reading carried over, and what the model misses in a band. */
function panelData(
  model: ForwardModel,
  reflectance: Float64Array,
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
    sd[b] = Math.hypot(slope * reflectanceSd, bandSd);
  });
  return { reflectance, logRatio, sd };
}
