import { ILLUMINANT, type IlluminantName } from "../../colorimetry/illuminant.js";
import { OBSERVER, type ObserverId } from "../../colorimetry/observer.js";
import { pathTo } from "../../core/check.js";
import { InputError } from "../../core/InputError.js";
import { list } from "../../core/shape/list.js";
import { number } from "../../core/shape/number.js";
import { optional } from "../../core/shape/optional.js";
import { type Noted, record } from "../../core/shape/record.js";
import { rule } from "../../core/shape/rule.js";
import type { Shape } from "../../core/shape/shape.js";
import { type Triple, triple } from "../../core/shape/triple.js";
import { GEOMETRY, type Geometry } from "../../surface/geometry.js";

/** A colour as an instrument gave it, where it gave no spectrum: `lab` or `xyz`, one of the two. */
export interface ColourReading extends Noted {
  readonly geometry: Geometry;
  /** The light that the numbers were computed for. */
  readonly illuminant: IlluminantName;
  /** The CIE standard observer that they were computed for. */
  readonly observer: ObserverId;
  /** CIE 1976 L*, a*, b*. */
  readonly lab?: Triple;
  /** CIE tristimulus values, Y of the perfect diffuser being 100. */
  readonly xyz?: Triple;
  /** Standard deviation of one reading in L*, a* and b* each. */
  readonly sd?: number;
  /** How many readings the colour is the mean of. */
  readonly replicates?: number;
}

/** A colour with every default in place. */
export type CheckedColourReading = ColourReading & Required<Pick<ColourReading, "sd" | "replicates">>;

/** Of a small colorimeter moved about on one panel: common practice, no source. */
const COLOUR_SD = 0.15;

const PLAIN = record<CheckedColourReading, ColourReading>({
  geometry: GEOMETRY,
  illuminant: ILLUMINANT,
  observer: OBSERVER,
  lab: optional(triple({ min: -500, max: 500 })),
  xyz: optional(triple({ min: 0, max: 1000 })),
  sd: optional(number({ min: 0.001, max: 20 }), COLOUR_SD),
  replicates: optional(number({ min: 1, max: 1000, whole: true }), 1),
});

const WHY = Object.freeze({
  geometry:
    "which geometry the instrument has: with gloss counted in, a dark paint reads lighter by several L*",
  illuminant:
    "the light that the colour was computed for: the same paint has other L*, a*, b* under another light",
  observer:
    "the observer, 1931-2 (2°) or 1964-10 (10°), that the colour was computed for: the same paint has other L*, a*, b* for the other",
});

const NAMED: Shape<CheckedColourReading> = Object.freeze<Shape<CheckedColourReading>>({
  check: (value, path) => {
    for (const key of ["geometry", "illuminant", "observer"] as const) {
      if (typeof value === "object" && value !== null && (value as ColourReading)[key] === undefined) {
        throw new InputError(
          "missing",
          pathTo(path, key),
          `needed: ${WHY[key]}; the instrument's settings say it`,
        );
      }
    }
    return PLAIN.check(value, path);
  },
  form: PLAIN.form,
});

/** A colour. Throws `missing` with the reason where light, observer or geometry is not said. */
export const COLOUR_READING = rule(NAMED, ({ lab, xyz }, path) => {
  if ((lab === undefined) !== (xyz === undefined)) return;
  const reason = lab
    ? "`lab` and `xyz` both stand here; give one of the two"
    : "`lab` or `xyz` is needed here";
  throw new InputError(lab ? "duplicate" : "missing", pathTo(path, "lab"), reason);
});

/** Colours of one surface: several lights and geometries. */
export const COLOURS = list(COLOUR_READING, { max: 100 });
