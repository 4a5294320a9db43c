import type { Lab } from "../colorimetry/lab.js";
import { VIEWING, type Viewing } from "../colorimetry/viewing.js";
import type { Xyz } from "../colorimetry/xyz.js";
import { type Noted, record } from "../core/shape/record.js";
import type { Warning } from "../core/warning.js";
import { effectPigmentWarnings } from "../forward/effectPigmentWarnings.js";
import { createForwardModel } from "../forward/forwardModel.js";
import { potSlopes } from "../forward/potSlopes.js";
import { rangeWarnings } from "../scene/readingWarnings.js";
import type { Geometry } from "../surface/geometry.js";
import type { Reading } from "../surface/reading.js";
import { checkNotGeneric } from "../toners/checkNotGeneric.js";
import { checkToners, GRAMS, type Grams, gramsById, gramsInOrder } from "../toners/pot.js";
import { TONER_SET, type TonerSet } from "../toners/tonerSet.js";
import { labSd } from "./labSd.js";

/** A mix to look at: a job without card and targets. */
export interface Mix extends Noted {
  readonly toners: TonerSet;
  readonly viewing: Viewing;
  readonly pot: Grams;
}

/** The reflectance that an opaque film of the mix would read, and its slope per gram of each toner added. */
export interface PredictedReading extends Reading {
  readonly reflectancePerGram: Readonly<Record<string, readonly number[]>>;
}

/** The colour of the mix at one geometry under one light, and its slope per gram of each toner added. */
export interface PredictedColour {
  readonly geometry: Geometry;
  readonly illuminant: string;
  readonly xyz: Xyz;
  readonly lab: Lab;
  /** One standard deviation of L*, a*, b*, where the toners say how uncertain they are. */
  readonly labSd?: Lab;
  readonly labPerGram: Readonly<Record<string, Lab>>;
}

/** The answer of `predict`. */
export interface Prediction {
  readonly format: "masstone/prediction";
  readonly version: 1;
  readonly observer: Viewing["observer"];
  readonly pot: Grams;
  readonly readings: readonly PredictedReading[];
  readonly predictions: readonly PredictedColour[];
  readonly warnings: readonly Warning[];
}

/** Keys of a job that a mix passes over, so that a whole job may be given. */
const OTHERS = [
  "card",
  "cards",
  "targets",
  "limits",
  "objective",
  "tolerance",
  "observers",
  "belief",
  "prices",
  "files",
] as const;

const MIX = record<Mix>(
  { toners: TONER_SET, viewing: VIEWING, pot: GRAMS },
  { format: "masstone/job", others: OTHERS },
);

/** Checks the parts of a job that make a mix. */
export function checkMix(value: unknown): Mix {
  const mix = MIX.check(value, "");
  checkToners(mix.pot, "pot", mix.toners.toners);
  return mix;
}

/**
 * Reflectance, XYZ and Lab of a mix as an opaque film, at every geometry of its toners and under every light, with
 * the Jacobian with respect to grams. K, S by Duncan 1940; R∞ by Kubelka & Munk 1931; surface by Saunderson 1942;
 * colour by ASTM E308. Not tied to any card. Throws InputError with code and place; `no-pigment` when nothing in
 * the pot absorbs or scatters at some band.
 */
export function predict(mix: Mix): Prediction {
  const { toners: set, viewing, pot } = checkMix(mix);
  checkNotGeneric(pot, "pot", set);
  const model = createForwardModel(
    set,
    viewing,
    set.surfaces.map(({ geometry }) => geometry),
  );
  const grams = gramsInOrder(pot, set.toners);
  const { at, slopes } = potSlopes(model, grams);

  const sd = set.uncertainty && labSd(model, grams, set.uncertainty);
  const { size } = model.coefficients;
  const { count } = set.grid;
  const columns = 3 * model.geometries.length * model.lights.length;
  const perToner = <T>(of: (j: number) => T) =>
    Object.fromEntries(set.toners.map(({ id }, j) => [id, of(j)]));
  const triple = (values: Float64Array, from: number) =>
    [values[from], values[from + 1], values[from + 2]] as const;

  return {
    format: "masstone/prediction",
    version: 1,
    observer: viewing.observer,
    pot: gramsById(grams, set.toners),
    readings: model.geometries.map((geometry, g) => ({
      geometry,
      grid: set.grid,
      reflectance: Array.from(at.reflectance.subarray(g * count, (g + 1) * count)),
      reflectancePerGram: perToner((j) =>
        Array.from(slopes.reflectance.subarray(j * size + g * count, j * size + (g + 1) * count)),
      ),
    })),
    predictions: model.geometries.flatMap((geometry, g) =>
      model.lights.map(({ name }, l) => {
        const place = 3 * (g * model.lights.length + l);
        return {
          geometry,
          illuminant: name,
          xyz: triple(at.xyz, place),
          lab: triple(at.lab, place),
          ...(sd && { labSd: triple(sd, place) }),
          labPerGram: perToner((j) => triple(slopes.lab, j * columns + place)),
        };
      }),
    ),
    warnings: [...rangeWarnings(set.grid), ...effectPigmentWarnings(set.toners, grams)],
  };
}
