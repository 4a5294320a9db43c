import { ILLUMINANT, type IlluminantName } from "../colorimetry/illuminant.js";
import { OBSERVER, type ObserverId } from "../colorimetry/observer.js";
import { InputError } from "../core/InputError.js";
import { oneOf } from "../core/shape/oneOf.js";
import { optional } from "../core/shape/optional.js";
import { record } from "../core/shape/record.js";
import { GEOMETRY, type Geometry } from "../surface/geometry.js";
import { type Cell, placeOf } from "./cell.js";
import { geometryFromText } from "./geometryFromText.js";

/** Whether a quarter of the light is written 0.25 or 25. */
export type Scale = "fraction" | "percent";

/** What the caller says of a file where the file itself does not say it; nothing of this is ever guessed. */
export interface Declared {
  readonly geometry?: Geometry;
  readonly scale?: Scale;
  /** The light and the observer that L*, a*, b* were computed for. */
  readonly illuminant?: IlluminantName;
  readonly observer?: ObserverId;
}

/** A scale. */
export const SCALE = oneOf<Scale>(["fraction", "percent"]);

/** Throws `unknown-key`, `unknown-geometry`, `unknown-word`. */
export const DECLARED = record<Declared>({
  geometry: optional(GEOMETRY),
  scale: optional(SCALE),
  illuminant: optional(ILLUMINANT),
  observer: optional(OBSERVER),
});

/** The geometry in the words of a file, if they name one beyond doubt, else as declared. Throws `unknown-geometry`. */
export function geometryOf(said: Cell | undefined, declared: Declared, place: Cell): Geometry {
  const geometry = (said && geometryFromText(said.text)) ?? declared.geometry;
  if (geometry !== undefined) return geometry;
  const found = said ? `"${said.text}" is no geometry beyond doubt` : "the file names no geometry";
  throw new InputError(
    "unknown-geometry",
    placeOf(said ?? place),
    `${found}: name it there, or declare "geometry" where the file is named`,
  );
}

/** `fraction` or 1, `percent` or 100 (the value that stands for all the light), else as declared. Throws `missing`. */
export function scaleOf(said: Cell | undefined, declared: Declared, place: Cell): Scale {
  if (said !== undefined) {
    if (said.text === "fraction" || /^1([.,]0*)?$/.test(said.text)) return "fraction";
    if (said.text === "percent" || /^100([.,]0*)?$/.test(said.text)) return "percent";
    throw new InputError("unknown-word", placeOf(said), `"${said.text}" is neither fraction nor percent`);
  }
  if (declared.scale !== undefined) return declared.scale;
  const reason =
    'the file does not say whether it holds fractions or per cent: say so there, or declare "scale" where the file is named';
  throw new InputError("missing", placeOf(place), reason);
}
