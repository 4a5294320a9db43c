import type { Work } from "../core/createWork.js";
import { alignReadings } from "../prediction/alignReadings.js";
import { anchorToCard, censoredBands } from "../prediction/anchor.js";
import { commonGrid } from "../prediction/commonGrid.js";
import { effectPigmentWarnings } from "../prediction/effectPigmentWarnings.js";
import { createForwardModel, type ForwardModel } from "../prediction/forwardModel.js";
import { censoredWarnings, rangeWarnings, resampledWarnings } from "../prediction/readingWarnings.js";
import type { Warning } from "../prediction/warning.js";
import { cropTonerSet } from "../toners/cropTonerSet.js";
import { surfaceAt, type TonerSet } from "../toners/tonerSet.js";
import { type Bench, createBench } from "./bench.js";
import { createGoal, type Goal } from "./goal.js";
import type { CheckedJob } from "./job.js";
import { workFor } from "./workOptions.js";

/** A job made ready for arithmetic: the model tied to the card, the colours to reach, the limits as numbers. */
export interface Problem {
  readonly model: ForwardModel;
  readonly goal: Goal;
  readonly bench: Bench;
  /** What may still be spent on it; every search counts here. */
  readonly work: Work;
}

/** A problem with what was noticed on the way, and whether the readings can carry an answer at all. */
export interface PreparedProblem {
  readonly problem: Problem;
  readonly warnings: readonly Warning[];
  readonly isReadable: boolean;
}

/** When more than this share of the bands of a reading is censored, its K/S is guesswork. */
const MOST_CENSORED = 0.5;

/**
 * Works at the geometries that the targets were read at, on the bands that toners and readings share. The toners
 * are put in the order of their ids, so that where two of them do the same the answer depends on no other order.
 */
export function prepareProblem(job: CheckedJob, work: Work = workFor()): PreparedProblem {
  const { viewing, card, targets } = job;
  const toners = inOrder(job.toners);
  const surfaces = [
    { readings: card.readings, path: "card.readings" },
    ...targets.map(({ readings }, t) => ({ readings, path: `targets[${t}].readings` })),
  ];
  for (const { readings, path } of surfaces.slice(1)) {
    readings.forEach(({ geometry }, i) => {
      surfaceAt(toners, geometry, `${path}[${i}].geometry`);
    });
  }
  const wanted = new Set(targets.flatMap(({ readings }) => readings.map(({ geometry }) => geometry)));
  const geometries = toners.surfaces
    .map(({ geometry }) => geometry)
    .filter((geometry) => wanted.has(geometry));
  const used = surfaces.flatMap(({ readings }) => readings).filter(({ geometry }) => wanted.has(geometry));
  const grid = commonGrid(toners.grid, used, "card.readings");

  const bench = createBench({ ...job, toners });
  const reflectance = alignReadings(card.readings, geometries, grid, "card.readings");
  const model = anchorToCard(
    createForwardModel(cropTonerSet(toners, grid), viewing, geometries),
    bench.pot,
    reflectance,
  );
  const goal = createGoal(job, model);
  const spectra = [
    ...geometries.map((_, geometry) => ({
      geometry,
      path: "card.readings",
      reflectance: reflectance.subarray(geometry * grid.count, (geometry + 1) * grid.count),
    })),
    ...goal.spectra.map((aim) => ({ ...aim, path: `targets[${aim.target}].readings` })),
  ];
  const censored = spectra.map(({ geometry, path, reflectance: values }) => ({
    path,
    bands: censoredBands(values, model.surfaces[geometry]),
  }));
  return {
    problem: { model, goal, bench, work },
    warnings: [
      ...rangeWarnings(grid),
      ...surfaces.flatMap(({ readings, path }) => resampledWarnings(readings, grid, path)),
      ...censored.flatMap(({ bands, path }) => censoredWarnings(bands, grid, path)),
      ...potWarnings(bench, job),
      ...effectPigmentWarnings(toners.toners, bench.pot),
    ],
    isReadable: censored.every(({ bands }) => bands.length <= MOST_CENSORED * grid.count),
  };
}

function inOrder(set: TonerSet): TonerSet {
  return { ...set, toners: [...set.toners].sort((a, b) => (a.id < b.id ? -1 : 1)) };
}

function potWarnings({ pot }: Bench, { limits }: CheckedJob): readonly Warning[] {
  const total = pot.reduce((sum, grams) => sum + grams, 0);
  const most = limits.potMaxGrams;
  if (most === undefined || total <= most) return [];
  const message = `the pot holds ${total} g already, more than potMaxGrams (${most} g): nothing can be added`;
  return [{ code: "pot-over-limit", message, path: "pot" }];
}
