import { beliefOf } from "../belief/belief.js";
import { beliefSizesOf } from "../belief/beliefSizes.js";
import { canPrior } from "../belief/canPrior.js";
import { checkScatters } from "../belief/checkScatters.js";
import { tie } from "../belief/tie.js";
import type { Lab } from "../colorimetry/lab.js";
import type { Viewing } from "../colorimetry/viewing.js";
import { checkRecord } from "../core/check.js";
import { sum } from "../core/sum.js";
import type { Warning } from "../core/warning.js";
import { censoredBands } from "../forward/anchor.js";
import { effectPigmentWarnings } from "../forward/effectPigmentWarnings.js";
import { createEvaluation, evaluate } from "../forward/evaluate.js";
import { createForwardModel, type ForwardModel } from "../forward/forwardModel.js";
import { potSlopes } from "../forward/potSlopes.js";
import { seenAtOfCard } from "../problem/geometriesSeen.js";
import { readCard } from "../problem/readCard.js";
import { createWeights } from "../problem/seenColours.js";
import { CARD, type Card, type CheckedCard, checkIsRead } from "../scene/card.js";
import { createScene } from "../scene/createScene.js";
import { censoredWarnings, rangeWarnings } from "../scene/readingWarnings.js";
import type { Geometry } from "../surface/geometry.js";
import { atFullStrength } from "../toners/atFullStrength.js";
import { type Grams, gramsById, gramsInOrder } from "../toners/pot.js";
import { surfaceAt } from "../toners/tonerSet.js";
import { type ColourStep, colourStep } from "./colourStep.js";
import { directionCosines } from "./directionCosines.js";
import { checkMix, type Mix } from "./predict.js";

/** A mix and, where one was sprayed, the card of it: a job without targets and limits. */
export interface MixOnCard extends Mix {
  readonly card?: Card;
}

/** The same with every default in place. */
export interface CheckedMixOnCard extends Mix {
  readonly card?: CheckedCard;
}

/** What an addition does to the colour at one geometry under one light. */
export interface ColourMove extends ColourStep {
  readonly geometry: Geometry;
  readonly illuminant: string;
}

/** What one toner does to the mix in the pot. */
export interface TonerDirection {
  readonly toner: string;
  /** Strength of the first gram: ΔE00 per gram, root mean square over geometries and lights by their weights. */
  readonly deltaE00PerGram: number;
  /** The toners that do most nearly the same, nearest first; cosine 1 is the same direction. */
  readonly alike: readonly { readonly toner: string; readonly cosine: number }[];
  /** One gram more, by the exact model. */
  readonly perGram: readonly ColourMove[];
  /** One per cent of what is in the pot more, by the exact model. */
  readonly perCent: readonly ColourMove[];
}

/** The answer of `tonerDirections`. */
export interface TonerDirections {
  readonly format: "masstone/directions";
  readonly version: 1;
  readonly observer: Viewing["observer"];
  readonly pot: Grams;
  readonly potGrams: number;
  /** Whether the model is tied to a card. */
  readonly isAnchored: boolean;
  /** The colour from which the moves start. */
  readonly colours: readonly {
    readonly geometry: Geometry;
    readonly illuminant: string;
    readonly lab: Lab;
  }[];
  /** In the order of the toner set. */
  readonly directions: readonly TonerDirection[];
  readonly warnings: readonly Warning[];
}

/** More neighbours than this are a list, not an answer; and beyond 60° a toner does something else (our choice). */
const MOST_ALIKE = 3;
const LEAST_ALIKE = 0.5;

/** Checks the parts of a job that make a mix on a card. */
export function checkMixOnCard(value: unknown): CheckedMixOnCard {
  const mix = checkMix(value);
  const { card, cards } = checkRecord(value, "");
  // Of all cards of a pot the last one is of the pot as it is.
  const hasMany = Array.isArray(cards) && cards.length > 0;
  const path = hasMany ? `cards[${cards.length - 1}]` : "card";
  const last = hasMany ? checkRecord(cards[cards.length - 1], path) : card;
  if (last === undefined) return mix;
  const { pot: _, ...own } = checkRecord(last, path);
  const checked = CARD.check(hasMany ? own : last, path);
  checkIsRead(checked, path);
  return { ...mix, card: checked };
}

/**
 * What one gram, and one per cent of the pot, of each toner does to the colour now: ΔL*, Δa*, Δb*, ΔC*, Δh and
 * ΔE00 at every geometry of the card (of the toners without one) under every light, from the card where there is one.
 * Throws InputError with code and place; `no-pigment` when nothing in the pot absorbs or scatters at some band.
 */
export function tonerDirections(job: MixOnCard): TonerDirections {
  const checked = checkMixOnCard(job);
  const { pot, viewing } = checked;
  const { toners } = checked.toners;
  const grams = gramsInOrder(pot, toners);
  const { model, warnings } = modelOf(checked, grams);
  const colours = model.geometries.flatMap((geometry) =>
    model.lights.map(({ name }) => ({ geometry, illuminant: name })),
  );
  const { at, slopes } = potSlopes(model, grams);
  const { lengths, cosine } = directionCosines(model, at, slopes);
  const labs = colours.map((_, c) => labOf(at.lab, c));
  const potGrams = sum(grams);
  const more = createEvaluation(model);
  const moves = (toner: number, amount: number): readonly ColourMove[] => {
    const changed = grams.map((inPot, j) => (j === toner ? inPot + amount : inPot));
    evaluate(model, changed, more);
    return colours.map((colour, c) => ({ ...colour, ...colourStep(labs[c], labOf(more.lab, c)) }));
  };
  return {
    format: "masstone/directions",
    version: 1,
    observer: viewing.observer,
    pot: gramsById(grams, toners),
    potGrams,
    isAnchored: checked.card !== undefined,
    colours: colours.map((colour, c) => ({ ...colour, lab: labs[c] })),
    directions: toners.map(({ id }, j) => ({
      toner: id,
      deltaE00PerGram: lengths[j],
      alike: toners
        .map((other, i) => ({ toner: other.id, cosine: i === j ? 0 : cosine(j, i) }))
        .filter((other) => other.cosine >= LEAST_ALIKE)
        .sort((a, b) => b.cosine - a.cosine)
        .slice(0, MOST_ALIKE),
      perGram: moves(j, 1),
      perCent: moves(j, potGrams / 100),
    })),
    warnings: [...warnings, ...effectPigmentWarnings(toners, grams)],
  };
}

function labOf(lab: Float64Array, colour: number): Lab {
  return [lab[3 * colour], lab[3 * colour + 1], lab[3 * colour + 2]];
}

/** Tied to the card at the geometries that card and toners share; as characterised without a card. */
function modelOf(
  { toners, viewing, card }: CheckedMixOnCard,
  grams: Float64Array,
): { readonly model: ForwardModel; readonly warnings: readonly Warning[] } {
  const known = toners.surfaces.map(({ geometry }) => geometry);
  if (!card) {
    return { model: createForwardModel(toners, viewing, known), warnings: rangeWarnings(toners.grid) };
  }
  const path = "card.readings";
  const seenAt = seenAtOfCard(card) ?? [];
  const geometries = known.filter((geometry) => seenAt.includes(geometry));
  if (geometries.length === 0) surfaceAt(toners, seenAt[0], `${path}[0].geometry`);
  const readings = card.readings.filter(({ geometry }) => geometries.includes(geometry));
  const read = readings.length === 0 ? [] : [{ readings, path }];
  const scene = createScene(toners, read, (one) => geometries.includes(one), path);
  const { grid } = scene;
  const free = createForwardModel(atFullStrength(scene.toners), viewing, geometries);
  checkScatters(free, grams, "pot");
  const sizes = beliefSizesOf(toners);
  const seen = readCard({ ...card, readings, path }, grams, {
    model: free,
    aligned: scene.aligned,
    weightsOf: createWeights(free),
  });
  const belief = beliefOf({ model: free, ...canPrior(toners, sizes.strengthSd), sizes }, [seen]);
  return {
    model: tie(belief),
    warnings: [
      ...scene.warnings,
      ...(seen.isExpected ? [] : geometries).flatMap((_, g) => {
        const values = seen.reflectance.subarray(g * grid.count, (g + 1) * grid.count);
        return censoredWarnings(censoredBands(values, free.surfaces[g]), grid, path);
      }),
    ],
  };
}
