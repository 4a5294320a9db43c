import { checkList, checkRecord, pathTo } from "../core/check.js";
import { didYouMean } from "../core/didYouMean.js";
import { InputError } from "../core/InputError.js";
import { checkGrid, type Grid } from "../spectra/grid.js";
import type { Geometry } from "../surface/geometry.js";
import { checkSurface, type Surface } from "../surface/surface.js";
import { checkLearntStrengths, type LearntStrengths } from "./learntStrengths.js";
import { checkMisfit, checkToner, type Toner } from "./toner.js";
import { checkUncertainty, type UncertaintyMode } from "./uncertainty.js";

/** Toners characterised together: one grid, one surface per geometry, K and S that may be added up. */
export interface TonerSet {
  readonly grid: Grid;
  readonly surfaces: readonly Surface[];
  readonly toners: readonly Toner[];
  /** What the characterisation left uncertain of K and S, all toners together. */
  readonly uncertainty?: readonly UncertaintyMode[];
  /** How far the whole line is off on films that it was not fitted to, as `Toner.misfit`; unknown when absent. */
  readonly misfit?: number;
  /** What cards have taught of the cans in use; `learnStrengths` starts from it. */
  readonly learnt?: LearntStrengths;
}

const MOST_TONERS = 500;

/** Checks a whole set: unique ids and geometries, K and S of every toner at every geometry. */
export function checkTonerSet(value: unknown, path: string): TonerSet {
  const record = checkRecord(value, path);
  const grid = checkGrid(record.grid, pathTo(path, "grid"));
  const surfaces = uniqueList(record.surfaces, pathTo(path, "surfaces"), "geometry", checkSurface);
  const shape = { count: grid.count, geometries: surfaces.map(({ geometry }) => geometry) };
  const toners = uniqueList(record.toners, pathTo(path, "toners"), "id", (toner, place) =>
    checkToner(toner, place, shape),
  );
  const ids = toners.map(({ id }) => id);
  const { uncertainty, misfit, learnt } = record;
  return {
    grid,
    surfaces,
    toners,
    ...(uncertainty !== undefined && {
      uncertainty: checkUncertainty(uncertainty, pathTo(path, "uncertainty"), { ...shape, ids }),
    }),
    ...(misfit !== undefined && { misfit: checkMisfit(misfit, pathTo(path, "misfit")) }),
    ...(learnt !== undefined && { learnt: checkLearntStrengths(learnt, pathTo(path, "learnt"), ids) }),
  };
}

/** Index of a toner by id; `unknown-toner` names the ids there are. */
export function tonerIndex(toners: readonly Toner[], id: string, path: string): number {
  const index = toners.findIndex((toner) => toner.id === id);
  if (index >= 0) return index;
  const known = toners.map((toner) => toner.id);
  const reason = `no toner "${id}" in the toner set; there are ${known.join(", ")}.${didYouMean(id, known)}`;
  throw new InputError("unknown-toner", path, reason);
}

/** The surface of a geometry; `unknown-geometry` when the set was not characterised there. */
export function surfaceAt(set: TonerSet, geometry: Geometry, path: string): Surface {
  const surface = set.surfaces.find((candidate) => candidate.geometry === geometry);
  if (surface) return surface;
  const known = set.surfaces.map((candidate) => candidate.geometry).join(", ");
  throw new InputError(
    "unknown-geometry",
    path,
    `the toners have no K and S at "${geometry}"; they have ${known}`,
  );
}

function uniqueList<Key extends string, T extends Record<Key, string>>(
  value: unknown,
  path: string,
  key: Key,
  check: (entry: unknown, path: string) => T,
): readonly T[] {
  const list = checkList(value, path, { min: 1, max: MOST_TONERS });
  const seen = new Set<string>();
  return Array.from(list, (entry, i) => {
    const checked = check(entry, `${path}[${i}]`);
    if (seen.has(checked[key])) {
      throw new InputError("duplicate", pathTo(`${path}[${i}]`, key), `"${checked[key]}" stands twice`);
    }
    seen.add(checked[key]);
    return checked;
  });
}
