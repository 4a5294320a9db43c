import type { Lab } from "../../colorimetry/lab.js";
import type { Work } from "../../core/createWork.js";
import { sum } from "../../core/sum.js";
import { createEvaluation, evaluate } from "../../forward/evaluate.js";
import { evaluationSteps } from "../../forward/evaluationSteps.js";
import type { ForwardModel } from "../../forward/forwardModel.js";
import { createRandom, type Random } from "../../numeric/probability/random.js";
import type { CardInformation } from "./cardInformation.js";
import type { RecipeDraw } from "./drawRecipes.js";
import { massToReach, ofMass } from "./massToReach.js";
import { paintColours } from "./paintColours.js";

/** One colour to reach with a pot, and how much of it is wanted. */
export interface Stage {
  readonly grams: number;
  /** What is to be in the pot for it and for what comes after. */
  readonly potGrams: number;
  /** The recipe that has the colour in a drawn world; only shares matter. */
  recipe(draw: RecipeDraw): Float64Array;
  /** Share of the tolerance that a colour uses up, worst panel; it passes up to 1. */
  allowanceUsed(wanted: readonly Lab[], paint: readonly Lab[]): number;
}

/** What it takes to serve all stages, on average over the drawn worlds. */
export interface ExpectedCost {
  readonly cards: number;
  /** Paint mixed beyond what is wanted. */
  readonly wasteGrams: number;
}

/** Most cards for one colour; after them a painter starts a new pot. */
const MOST_CARDS = 8;

/**
 * Plays the job through in every world drawn: a card; if its colour passes, done; else the pours that would be right
 * were the cans as strong as estimated; a card again. More of the pot as it is keeps its colour, so only what is poured
 * beyond that is off, by what the cards so far leave uncertain of a toner against the pot: a larger correction errs more.
 * What is in excess is put right by adding everything else, where the cup is too small for that after pouring off as
 * much as must be. With no work left the worlds played so far count. Paint is mixed by the exact model; readings of colour are taken as free of error, pours as exact.
 */
export function expectedCost(
  model: ForwardModel,
  pot: Float64Array,
  stages: readonly Stage[],
  {
    draws,
    seed,
    information,
    mostGrams,
    work,
  }: {
    readonly draws: readonly RecipeDraw[];
    readonly seed: number;
    /** After the first card, and after later ones. */
    readonly information: readonly [CardInformation, CardInformation];
    readonly mostGrams: number;
    readonly work: Work;
  },
): ExpectedCost {
  const random = createRandom(seed);
  let cards = 0;
  let waste = 0;
  let played = 0;
  for (const draw of draws) {
    if (played > 0 && work.isSpent()) break;
    played++;
    const before = cards;
    let grams: Float64Array = Float64Array.from(pot);
    stages.forEach((stage, i) => {
      const reached = reach(model, grams, stage, {
        draw,
        random,
        information,
        mostGrams,
        first: i === 0,
      });
      cards += reached.cards;
      waste += reached.pouredOff;
      const mass = sum(reached.grams);
      const left = Math.max(0, mass - stage.grams) / mass;
      grams = reached.grams.map((amount) => amount * left);
    });
    waste += sum(grams);
    work.spend((cards - before + stages.length) * evaluationSteps(model));
  }
  return { cards: cards / played, wasteGrams: waste / played };
}

function reach(
  model: ForwardModel,
  pot: Float64Array,
  stage: Stage,
  world: {
    readonly draw: RecipeDraw;
    readonly random: Random;
    readonly information: readonly [CardInformation, CardInformation];
    readonly mostGrams: number;
    readonly first: boolean;
  },
): { readonly grams: Float64Array; readonly cards: number; readonly pouredOff: number } {
  const { draw, random, information, mostGrams, first } = world;
  const recipe = stage.recipe(draw);
  const wanted = coloursOf(model, recipe, draw);
  let grams = pot;
  let pouredOff = 0;
  for (let cards = 1; ; cards++) {
    const passes = stage.allowanceUsed(wanted, coloursOf(model, grams, draw)) <= 1;
    if (passes || cards === MOST_CARDS) return { grams, cards, pouredOff };
    const kept = Math.min(1, mostGrams / massToReach(grams, recipe));
    pouredOff += (1 - kept) * sum(grams);
    grams = grams.map((amount) => kept * amount);
    const mass = Math.max(stage.potGrams, massToReach(grams, recipe));
    const error = information[first && cards === 1 ? 0 : 1].error(random);
    const right = ofMass(recipe, mass);
    const grown = leastRatio(right, grams);
    grams = grams.map((amount, j) => {
      const more = grown * amount;
      return more + Math.max(0, right[j] - more) * Math.exp(error[j]);
    });
  }
}

/** How far the pot can grow as it is before it holds too much of a toner; an empty pot cannot. */
function leastRatio(most: Float64Array, pot: Float64Array): number {
  const ratios = Array.from(pot, (amount, j) => (amount > 0 ? most[j] / amount : Number.POSITIVE_INFINITY));
  const least = Math.min(...ratios);
  return Number.isFinite(least) ? Math.max(1, least) : 1;
}

/** The colours of grams in a world, the cans being as strong as they are there. */
function coloursOf(model: ForwardModel, grams: Float64Array, { strengths }: RecipeDraw): readonly Lab[] {
  const at = createEvaluation(model);
  evaluate(
    model,
    grams.map((amount, j) => amount * strengths[j]),
    at,
  );
  return paintColours(model, at.reflectance);
}
