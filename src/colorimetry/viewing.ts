import { InputError } from "../core/InputError.js";
import { list } from "../core/shape/list.js";
import { number } from "../core/shape/number.js";
import { optional } from "../core/shape/optional.js";
import { record } from "../core/shape/record.js";
import { rule } from "../core/shape/rule.js";
import { ILLUMINANT, type IlluminantName } from "./illuminant.js";
import { OBSERVER, type ObserverId } from "./observer.js";

/** Who looks, and under which lights. */
export interface Viewing {
  /** CIE standard observer of 2° or 10°. */
  readonly observer: ObserverId;
  /** None twice; at least one must count. */
  readonly illuminants: readonly WeightedIlluminant[];
}

/** An illuminant by name and how much it matters. */
export interface WeightedIlluminant {
  /** A CIE illuminant, or any daylight of 4000–25000 K, such as `D6000K`. */
  readonly name: IlluminantName;
  /** How much the light matters against the others. */
  readonly weight?: number;
}

/** A weight is a share; far larger numbers are a slip and would swallow the others. */
const HEAVIEST = 1e6;

const LIGHTS = list(
  record<Required<WeightedIlluminant>, WeightedIlluminant>({
    name: ILLUMINANT,
    weight: optional(number({ min: 0, max: HEAVIEST }), 1),
  }),
  { min: 1, unique: "name" },
);

/** Viewing conditions; every illuminant of the result has its weight. */
export const VIEWING = record<Viewing>({ observer: OBSERVER, illuminants: rule(LIGHTS, someCount) });

function someCount(lights: readonly Required<WeightedIlluminant>[], path: string): void {
  if (lights.some(({ weight }) => weight > 0)) return;
  throw new InputError("out-of-range", path, "all weights are 0: at least one must be more");
}
