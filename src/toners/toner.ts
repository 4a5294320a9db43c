import { checkNumber, checkNumbers, checkOneOf, checkRecord, checkText, pathTo } from "../core/check.js";
import { InputError } from "../core/InputError.js";
import type { Geometry } from "../surface/geometry.js";

/** What a toner is for. */
export const TONER_ROLES = ["white", "black", "chromatic", "binder", "flake", "pearl"] as const;

/** One of `TONER_ROLES`. */
export type TonerRole = (typeof TONER_ROLES)[number];

/** Absorption or scattering per gram as poured, by geometry, on the grid of the toner set. */
export type SpectraByGeometry = { readonly [G in Geometry]?: ArrayLike<number> };

/** A paint to tint with: what one gram of it absorbs and scatters. */
export interface Toner {
  readonly id: string;
  readonly name?: string;
  readonly role?: TonerRole;
  /** Factor on K and S of the can in use; 1 when absent: the can is as characterised. */
  readonly strength?: number;
  /** Standard deviation of ln strength. */
  readonly strengthSd?: number;
  /** How far K and S are off on films that they were not fitted to, in units of what is usual; 1 when absent. */
  readonly misfit?: number;
  readonly k: SpectraByGeometry;
  readonly s: SpectraByGeometry;
}

/** Far beyond any paint in any unit in use; larger numbers are a slip that would drown the rest of the mix. */
const LARGEST_COEFFICIENT = 1e6;

/** Of a toner or of a whole set, in units of what is usual. */
export function checkMisfit(value: unknown, path: string): number {
  return checkNumber(value, path, { min: 0, max: 10 });
}

/** Checks a toner against the grid length and geometries of its set; keys unknown here come back as they were. */
export function checkToner(
  value: unknown,
  path: string,
  { count, geometries }: { readonly count: number; readonly geometries: readonly Geometry[] },
): Toner {
  const record = checkRecord(value, path);
  const spectra = (key: "k" | "s"): SpectraByGeometry => {
    const place = pathTo(path, key);
    const byGeometry = checkRecord(record[key], place);
    for (const name of Object.keys(byGeometry)) {
      if (geometries.some((geometry) => geometry === name)) continue;
      throw new InputError("unknown-geometry", pathTo(place, name), `"${name}" has no entry in surfaces`);
    }
    return Object.fromEntries(
      geometries.map((geometry) => [
        geometry,
        checkNumbers(byGeometry[geometry], pathTo(place, geometry), count, {
          min: 0,
          max: LARGEST_COEFFICIENT,
        }),
      ]),
    );
  };
  const { name, role, strength, strengthSd, misfit } = record;
  return {
    ...record,
    id: checkText(record.id, pathTo(path, "id")),
    ...(name !== undefined && { name: checkText(name, pathTo(path, "name")) }),
    ...(role !== undefined && { role: checkOneOf(role, pathTo(path, "role"), TONER_ROLES) }),
    ...(strength !== undefined && {
      strength: checkNumber(strength, pathTo(path, "strength"), { min: 1e-3, max: 1e3 }),
    }),
    ...(strengthSd !== undefined && {
      strengthSd: checkNumber(strengthSd, pathTo(path, "strengthSd"), { min: 0, max: 10 }),
    }),
    ...(misfit !== undefined && { misfit: checkMisfit(misfit, pathTo(path, "misfit")) }),
    k: spectra("k"),
    s: spectra("s"),
  };
}
