import { pathTo } from "../core/check.js";
import { InputError } from "../core/InputError.js";
import { list } from "../core/shape/list.js";
import { optional } from "../core/shape/optional.js";
import { type Noted, record } from "../core/shape/record.js";
import { rule } from "../core/shape/rule.js";
import { checkBands, GRID, type Grid } from "../spectra/grid.js";
import type { Geometry } from "../surface/geometry.js";
import { SURFACE, type Surface } from "../surface/surface.js";
import { checkLearntToners, LEARNT_STRENGTHS, type LearntStrengths } from "./learntStrengths.js";
import { checkToners } from "./pot.js";
import { MISFIT, type SpectraByGeometry, TONER, type Toner } from "./toner.js";
import { UNCERTAINTY, type UncertaintyMode } from "./uncertainty.js";

/** Toners characterised together: one grid, one surface per geometry, K and S that may be added up. */
export interface TonerSet extends Noted {
  /** Wavelengths of all spectra of the set. */
  readonly grid: Grid;
  /** What boundary of air and paint does to readings, per geometry. */
  readonly surfaces: readonly Surface[];
  /** No id twice. */
  readonly toners: readonly Toner[];
  /** What the characterisation left uncertain of K and S, all toners together. */
  readonly uncertainty?: readonly UncertaintyMode[];
  /**
   * How far the whole line is off on films that it was not fitted to, as that of a toner; from 0.7 on its paint counts
   * as badly behaved.
   */
  readonly misfit?: number;
  /** What cards have taught of the cans in use; `learnStrengths` starts from it. */
  readonly learnt?: LearntStrengths;
}

const MOST_TONERS = 500;

/** A whole set: unique ids and geometries, K and S of every toner at every geometry. */
export const TONER_SET = rule(
  record<TonerSet>(
    {
      grid: GRID,
      surfaces: list(SURFACE, { min: 1, unique: "geometry" }),
      toners: list(TONER, { min: 1, max: MOST_TONERS, unique: "id" }),
      uncertainty: optional(UNCERTAINTY),
      misfit: optional(MISFIT),
      learnt: optional(LEARNT_STRENGTHS),
    },
    { format: "masstone/toners" },
  ),
  checkParts,
);

/** What one part of a set says of another. */
function checkParts(set: TonerSet, path: string): void {
  const { grid, surfaces, toners, uncertainty = [], learnt } = set;
  const geometries = surfaces.map(({ geometry }) => geometry);
  const checkSpectra = (spectra: SpectraByGeometry, place: string): void => {
    for (const name of Object.keys(spectra)) {
      if (geometries.some((geometry) => geometry === name)) continue;
      throw new InputError("unknown-geometry", pathTo(place, name), `"${name}" has no entry in surfaces`);
    }
    for (const geometry of geometries) {
      const at = pathTo(place, geometry);
      const values = spectra[geometry];
      if (values === undefined) throw new InputError("missing", at, "a list is needed here");
      checkBands(values, grid, at);
    }
  };
  const checkBoth = ({ k, s }: Pick<Toner, "k" | "s">, place: string): void => {
    checkSpectra(k, pathTo(place, "k"));
    checkSpectra(s, pathTo(place, "s"));
  };
  toners.forEach((toner, j) => {
    checkBoth(toner, `${pathTo(path, "toners")}[${j}]`);
  });
  uncertainty.forEach((mode, m) => {
    const place = `${pathTo(path, "uncertainty")}[${m}]`;
    checkToners(mode, place, toners);
    for (const [id, change] of Object.entries(mode)) checkBoth(change, pathTo(place, id));
  });
  if (learnt) checkLearntToners(learnt, pathTo(path, "learnt"), toners);
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
