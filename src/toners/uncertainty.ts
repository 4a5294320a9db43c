import { checkList, checkNumbers, checkRecord, pathTo } from "../core/check.js";
import { InputError } from "../core/InputError.js";
import type { Geometry } from "../surface/geometry.js";
import type { SpectraByGeometry } from "./toner.js";

/** Changes of ln K and ln S of a toner. */
export interface LogChange {
  readonly k: SpectraByGeometry;
  readonly s: SpectraByGeometry;
}

/**
 * One way in which a toner set may be wrong, by one standard deviation: changes of ln K and ln S by toner id (none
 * for a toner that is not named). The modes of a set are independent of one another; their squares add up.
 */
export type UncertaintyMode = Readonly<Record<string, LogChange>>;

const MOST_MODES = 500;
/** A factor e^50 is beyond any unit. */
const LARGEST_CHANGE = 50;

/** Checks modes against the grid length, geometries and toners of their set. */
export function checkUncertainty(
  value: unknown,
  path: string,
  shape: {
    readonly count: number;
    readonly geometries: readonly Geometry[];
    readonly ids: readonly string[];
  },
): readonly UncertaintyMode[] {
  const spectra = (of: unknown, place: string): SpectraByGeometry => {
    const byGeometry = checkRecord(of, place);
    return Object.fromEntries(
      shape.geometries.map((geometry) => [
        geometry,
        checkNumbers(byGeometry[geometry], pathTo(place, geometry), shape.count, {
          min: -LARGEST_CHANGE,
          max: LARGEST_CHANGE,
        }),
      ]),
    );
  };
  return Array.from(checkList(value, path, { max: MOST_MODES }), (mode, m) => {
    const record = checkRecord(mode, `${path}[${m}]`);
    return Object.fromEntries(
      Object.keys(record).map((id) => {
        const place = pathTo(`${path}[${m}]`, id);
        if (!shape.ids.includes(id)) {
          throw new InputError("unknown-toner", place, `no toner "${id}" in the toner set`);
        }
        const change = checkRecord(record[id], place);
        return [id, { k: spectra(change.k, pathTo(place, "k")), s: spectra(change.s, pathTo(place, "s")) }];
      }),
    );
  });
}
