import { canPrior } from "../../belief/canPrior.js";
import { checkScatters } from "../../belief/checkScatters.js";
import type { SeenPanel } from "../../belief/panel.js";
import type { Prior } from "../../belief/prior.js";
import { InputError } from "../../core/InputError.js";
import type { Warning } from "../../core/warning.js";
import { censoredBands } from "../../forward/anchor.js";
import { createForwardModel, type ForwardModel } from "../../forward/forwardModel.js";
import { seenAtOfCard } from "../../problem/geometriesSeen.js";
import { createWeights, seenColours } from "../../problem/seenColours.js";
import { checkGeometries, createScene } from "../../scene/createScene.js";
import { censoredWarnings } from "../../scene/readingWarnings.js";
import type { Geometry } from "../../surface/geometry.js";
import type { Reading } from "../../surface/reading.js";
import { atFullStrength } from "../../toners/atFullStrength.js";
import { gramsInOrder } from "../../toners/pot.js";
import { colouringToners } from "./colouringToners.js";
import type { CheckedPlanJob } from "./planJob.js";

/** What was seen of a panel. */
export type PanelData = Pick<SeenPanel, "spectra" | "colours">;

/** A formula for arithmetic: its grams, and its fresh colour where that was read. */
export interface FormulaData {
  readonly grams: Float64Array;
  readonly fresh?: Float64Array;
}

/** A plan's job made ready: everything on the bands and at the geometries that all readings share. */
export interface PlanProblem {
  /** Of the cans as they are said to be, tied to nothing. */
  readonly model: ForwardModel;
  /** What is believed of cans, toners and surface before the first card. */
  readonly prior: Prior;
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
    return { grams: amounts, ...(readings && { fresh: aligned(readings, `formulas[${i}].readings`) }) };
  });
  const sizes = job.belief;
  const bare = createForwardModel(atFullStrength(scene.toners), job.viewing, geometries);
  const cans = canPrior(job.toners, sizes.strengthSd);
  // What colours nothing has no strength.
  const colours = new Array<boolean>(cans.logStrength.length).fill(false);
  for (const j of colouringToners(bare)) colours[j] = true;
  const covariance = cans.covariance.map((value, i) =>
    colours[i % colours.length] && colours[Math.floor(i / colours.length)] ? value : 0,
  );
  const prior = { model: bare, logStrength: cans.logStrength, covariance, sizes };
  const weightsOf = createWeights(bare);
  const panels = job.panels.map(({ readings, colours }, i): PanelData => {
    const read = readings.length > 0 ? aligned(readings, `panels[${i}].readings`) : new Float64Array(0);
    const spectra = geometries.slice(0, read.length / grid.count).map((_, geometry) => {
      const reflectance = read.slice(geometry * grid.count, (geometry + 1) * grid.count);
      return { geometry, reflectance };
    });
    return { spectra, colours: seenColours(bare, weightsOf, colours) };
  });
  const warnings = [
    ...scene.warnings,
    ...panels.flatMap(({ spectra }, i) =>
      spectra.flatMap(({ geometry, reflectance }) =>
        censoredWarnings(censoredBands(reflectance, model.surfaces[geometry]), grid, `panels[${i}].readings`),
      ),
    ),
  ];
  return { model, prior, panels, formulas, warnings };
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
