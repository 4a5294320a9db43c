import type { Work } from "../core/createWork.js";
import { arrowVariances } from "../numeric/linear/arrowVariances.js";
import { factoriseArrow } from "../numeric/linear/blockArrow.js";
import type { NextMeasurement } from "./characterisation.js";
import { iterationSteps } from "./fitJointly.js";
import type { CheckedJob } from "./job.js";
import { linearise } from "./linearise.js";
import { type Film, observe } from "./observations.js";
import { withNoiseScale } from "./posterior.js";
import { layOutUnknowns, type Point, type Unknowns } from "./unknowns.js";

/** Backings of the chart that a candidate would be drawn down on. */
const CHART = { black: 0.05, white: 0.85 } as const;

/**
 * Candidates ranked by what they would do to the mean sd of all ln K and ln S (A-optimal design, one step): the
 * readings they would give, with unknown thickness and weighing like any other, are added to the linearisation at the
 * answer. With no work left the others are not ranked. Source: Atkinson, Donev & Tobias 2007 §10.2.
 */
export function nextMeasurements(
  job: CheckedJob,
  noiseScale: number,
  { unknowns, point, work }: { readonly unknowns: Unknowns; readonly point: Point; readonly work: Work },
): readonly NextMeasurement[] {
  const now = meanSd(job, noiseScale, unknowns, point);
  return job.candidates
    .flatMap(({ recipe, backing }) => {
      if (work.isSpent()) return [];
      work.spend(iterationSteps(observe(job), unknowns));
      const extended = { ...job, samples: [...job.samples, drawdown(job, recipe, backing)] };
      return [{ recipe, backing, shrinksTo: meanSd(extended, noiseScale, unknowns, point) / now }];
    })
    .sort((a, b) => a.shrinksTo - b.shrinksTo);
}

function drawdown(
  { grid, surfaces }: CheckedJob,
  recipe: NextMeasurement["recipe"],
  backing: NextMeasurement["backing"],
): CheckedJob["samples"][number] {
  const flat = (value: number) => new Float64Array(grid.count).fill(value);
  const fields = backing === "opaque" ? [undefined] : [CHART.black, CHART.white];
  return {
    name: "a drawdown to come",
    recipe,
    readings: surfaces.flatMap(({ geometry }) =>
      fields.map((field) => ({
        geometry,
        grid,
        reflectance: flat(0.2),
        ...(field !== undefined && { backing: flat(field) }),
      })),
    ),
  };
}

/** Mean over toners and bands of the sd of ln K and of ln S. */
function meanSd(job: CheckedJob, noiseScale: number, fitted: Unknowns, { local, border }: Point): number {
  const observations = observe(job);
  const unknowns = layOutUnknowns(observations);
  const { arrow } = linearise(withNoiseScale(observations, noiseScale), unknowns, {
    local,
    border: carried(fitted, unknowns, border, observations.films),
  });
  const factor = factoriseArrow(arrow, new Float64Array(local.length + unknowns.border));
  if (!factor) return Number.NaN;
  const { variance } = arrowVariances(factor);
  let sum = 0;
  for (let i = 0; i < local.length; i++) sum += Math.sqrt(variance[i]);
  return sum / local.length;
}

/** The border of a fit in the layout of one film more, whose own unknowns are at their priors. */
function carried(from: Unknowns, to: Unknowns, border: Float64Array, films: readonly Film[]): Float64Array {
  const values = to.priorMean.slice();
  const copy = (a: number, b: number) => {
    if (a >= 0 && b >= 0) values[b] = border[a];
  };
  from.thickness.forEach((place, f) => {
    copy(place, to.thickness[f]);
  });
  from.shares.forEach((place, f) => {
    for (let c = 0; place >= 0 && c < films[f].toners.length; c++) copy(place + c, to.shares[f] + c);
  });
  from.density.forEach((place, j) => {
    copy(place, to.density[j]);
  });
  from.surface.forEach(({ place }, i) => {
    copy(place, to.surface[i].place);
  });
  return values;
}
