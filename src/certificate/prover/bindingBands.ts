import { ciede2000 } from "../../colorimetry/ciede2000.js";
import { labByXyz } from "../../colorimetry/lab.js";
import { sum } from "../../core/sum.js";
import { createGradient, differentiate } from "../../forward/differentiate.js";
import { createEvaluation, evaluate } from "../../forward/evaluate.js";
import { labAt } from "../../problem/goal.js";
import type { Problem } from "../../problem/problem.js";
import { gridEnd } from "../../spectra/grid.js";
import type { BindingBands } from "../records/certificate.js";
import { differenceSlope } from "./measure.js";

/** Bands are listed until they make up this share of the miss. */
const ENOUGH = 0.7;

/** A toner is named if it moves the range by at least this share of the strongest one. */
const FEEBLE = 0.2;

/** Toners named for a range at most. */
const MOST_NAMED = 3;

/**
 * Where in the spectrum the aim that misses most is missed, at the best mix known: bands by how much they add to its
 * ΔE00 (slope of ΔE00 with respect to reflectance × what the mix misses there), the largest until they make up most of it,
 * joined where they touch; with the toners that would help there.
 */
export function bindingBands(
  { model, goal, bench }: Problem,
  additions: Float64Array,
  targets: readonly string[],
): readonly BindingBands[] {
  const at = createEvaluation(model);
  evaluate(
    model,
    bench.pot.map((grams, j) => grams + additions[j]),
    at,
  );
  const misses = goal.aims.map((aim) => ciede2000(aim.lab, labAt(at.lab, aim.place)) / aim.allowed);
  const aim = goal.aims[misses.indexOf(Math.max(...misses))];
  const spectrum = goal.spectra.find(
    ({ target, geometry }) => target === aim.target && geometry === aim.geometry,
  );
  if (!spectrum) return [];
  const { grid } = model.set;
  const { tristimulus } = model.lights[aim.light];
  const { place } = aim;
  const { n } = differenceSlope(aim.lab, labAt(at.lab, place));
  const slopes = labByXyz([at.xyz[place], at.xyz[place + 1], at.xyz[place + 2]], tristimulus.white);
  const first = aim.geometry * grid.count;
  const missed = Array.from(
    { length: grid.count },
    (_, b) => at.reflectance[first + b] - spectrum.reflectance[b],
  );
  const adds = missed.map((by, b) => {
    const weights = [tristimulus.x[b], tristimulus.y[b], tristimulus.z[b]];
    const slope = slopes.reduce(
      (sum, row, axis) => sum + n[axis] * row.reduce((s, value, i) => s + value * weights[i], 0),
      0,
    );
    return Math.max(0, slope * by);
  });
  const wanted = ENOUGH * sum(adds);
  const chosen = new Set<number>();
  let explained = 0;
  for (const b of [...adds.keys()].sort((i, j) => adds[j] - adds[i])) {
    if (!(explained < wanted)) break;
    chosen.add(b);
    explained += adds[b];
  }

  const gradient = createGradient(model);
  const free = [...bench.pot.keys()].filter((j) => Math.min(bench.stock[j], bench.room) > 0);
  differentiate(model, at, gradient, free);
  const helpers = (bands: readonly number[], isDark: boolean) => {
    const does = free.map((j) => {
      const grow = bands.reduce((total, b) => total + gradient.spectra[j][aim.geometry][b], 0);
      return { j, help: isDark ? grow : -grow };
    });
    const strongest = Math.max(0, ...does.map(({ help }) => help));
    return does
      .filter(({ help }) => help > FEEBLE * strongest)
      .sort((x, y) => y.help - x.help)
      .slice(0, MOST_NAMED)
      .map(({ j }) => model.set.toners[j].id);
  };
  return runs(
    [...chosen].sort((i, j) => i - j),
    missed,
  ).map((bands) => {
    const isDark = missed[bands[0]] < 0;
    const last = bands[bands.length - 1];
    return {
      target: targets[aim.target],
      geometry: model.geometries[aim.geometry],
      from: grid.start + bands[0] * grid.step,
      to: Math.min(gridEnd(grid), grid.start + last * grid.step),
      mixIs: isDark ? "too dark" : "too light",
      toners: helpers(bands, isDark),
    };
  });
}

/** Neighbouring bands that miss the same way. */
function runs(bands: readonly number[], missed: readonly number[]): readonly (readonly number[])[] {
  const all: number[][] = [];
  for (const b of bands) {
    const last = all[all.length - 1];
    const isNext =
      last !== undefined && last[last.length - 1] === b - 1 && missed[b] < 0 === missed[b - 1] < 0;
    if (isNext) last.push(b);
    else all.push([b]);
  }
  return all;
}
