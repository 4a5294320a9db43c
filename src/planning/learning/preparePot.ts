import { InputError } from "../../core/InputError.js";
import { alignReadings } from "../../prediction/alignReadings.js";
import { commonGrid } from "../../prediction/commonGrid.js";
import type { Grid } from "../../spectra/grid.js";
import type { Geometry } from "../../surface/geometry.js";
import { surfaceTerms } from "../../surface/saunderson.js";
import { packCoefficients } from "../../toners/coefficients.js";
import { cropTonerSet } from "../../toners/cropTonerSet.js";
import { gramsInOrder } from "../../toners/pot.js";
import { surfaceAt, type TonerSet } from "../../toners/tonerSet.js";
import { cardErrors } from "./cardErrors.js";
import type { PotCards } from "./learningJob.js";
import type { LearningOptions } from "./learningOptions.js";
import type { CardModel, PotModel } from "./potModel.js";
import { smoothModes } from "./smoothModes.js";

/** A pot and its cards laid out for arithmetic, at the geometries and bands that all its cards share with the toners. */
export interface PreparedPot {
  readonly geometries: readonly Geometry[];
  readonly grid: Grid;
  readonly model: PotModel;
  /** Grams of each toner at every card. */
  readonly grams: readonly Float64Array[];
  /** The card, given what was in the pot when the card before it that counts was sprayed. */
  readonly card: (index: number, before?: Float64Array) => CardModel;
}

const POT_MODES = 8;
const TONER_MODES = 4;
const CARD_MODES = 3;

/** The toners count at strength 1: their strengths are what is to be found. */
export function preparePot(
  { cards }: PotCards,
  path: string,
  toners: TonerSet,
  options: LearningOptions,
): PreparedPot {
  const geometries = toners.surfaces
    .map(({ geometry }) => geometry)
    .filter((geometry) => cards.every(({ readings }) => readings.some((one) => one.geometry === geometry)));
  if (geometries.length === 0) {
    const reason = "no geometry that the toners have was read on every card";
    throw new InputError("unknown-geometry", `${path}.cards`, reason);
  }
  const used = cards.flatMap(({ readings }) =>
    readings.filter(({ geometry }) => geometries.includes(geometry)),
  );
  const grid = commonGrid(toners.grid, used, `${path}.cards`);
  const asCharacterised = { ...toners, toners: toners.toners.map((toner) => ({ ...toner, strength: 1 })) };
  const coefficients = packCoefficients(cropTonerSet(asCharacterised, grid), geometries);
  const { size } = coefficients;
  const grams = cards.map(({ pot }) => gramsInOrder(pot, toners.toners));
  const scattering = new Float64Array(size);
  grams[0].forEach((amount, j) => {
    for (let b = 0; b < size; b++) scattering[b] += amount * coefficients.s[j * size + b];
  });
  if (scattering.some((value) => !(value > 0))) {
    throw new InputError(
      "no-pigment",
      `${path}.cards[0].pot`,
      "nothing in the pot scatters light at some band",
    );
  }
  const smooth = (modes: number, sd: number) =>
    smoothModes(grid, { geometries: geometries.length, modes, sd });
  const surfaces = geometries.map((geometry) => surfaceTerms(surfaceAt(toners, geometry, path)));
  const inPot = [...toners.toners.keys()].filter((j) => grams.some((amounts) => amounts[j] > 0));
  const shapes = smooth(CARD_MODES, options.cardRatioSd);
  return {
    geometries,
    grid,
    grams,
    model: {
      coefficients,
      surfaces,
      readingSd: options.readingSd,
      shapes: smooth(POT_MODES, options.potRatioSd),
      strays: smooth(POT_MODES, options.strayAbsorptionSd).map((mode) =>
        mode.map((value, b) => value * scattering[b]),
      ),
      tonerShapes: inPot.flatMap((toner) => [
        ...smooth(TONER_MODES, options.tonerRatioSd).map((shape) => ({ toner, of: "k" as const, shape })),
        ...smooth(1, options.tonerScatteringSd).map((shape) => ({ toner, of: "s" as const, shape })),
      ]),
      crowding: {
        whites: [...toners.toners.keys()].filter((j) => toners.toners[j].role === "white"),
        sd: options.crowdingSd,
      },
      surfaceSds: [options.k1Sd, options.k2Sd, options.k2RiseSd],
    },
    card: (index, before) => {
      const place = `${path}.cards[${index}].readings`;
      const reflectance = alignReadings(cards[index].readings, geometries, grid, place);
      return {
        grams: grams[index],
        reflectance,
        pourSd: grams[index].map((amount, j) => pourSd(amount - (before?.[j] ?? 0), options)),
        shapes,
        offsets: cardErrors(reflectance, surfaces, grid, options),
      };
    },
  };
}

function pourSd(poured: number, options: LearningOptions): number {
  return poured > 0 ? Math.hypot(options.pourSd, options.pourShareSd * poured) : 0;
}
