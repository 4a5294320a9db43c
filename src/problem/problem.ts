import type { Belief } from "../belief/belief.js";
import { canPrior } from "../belief/canPrior.js";
import { checkScatters } from "../belief/checkScatters.js";
import { inferPanels } from "../belief/inferPanels.js";
import type { Judgement } from "../belief/judge.js";
import { risk } from "../belief/risk.js";
import { tie } from "../belief/tie.js";
import type { Work } from "../core/createWork.js";
import { sum } from "../core/sum.js";
import type { Warning } from "../core/warning.js";
import { workFor, workWarnings } from "../core/workOptions.js";
import { censoredBands } from "../forward/anchor.js";
import { effectPigmentWarnings } from "../forward/effectPigmentWarnings.js";
import { createForwardModel, type ForwardModel } from "../forward/forwardModel.js";
import { checkGeometries, createScene, type ReadSurface } from "../scene/createScene.js";
import { censoredWarnings } from "../scene/readingWarnings.js";
import type { Geometry } from "../surface/geometry.js";
import { atFullStrength } from "../toners/atFullStrength.js";
import { gramsInOrder } from "../toners/pot.js";
import { type Bench, createBench } from "./bench.js";
import { geometriesSeen, geometryOfEye, seenAtOfCard } from "./geometriesSeen.js";
import { createGoal, type Goal } from "./goal.js";
import { isByEye } from "./isByEye.js";
import { type CheckedJob, cardsOf } from "./job.js";
import { cardWarnings, judgeCards } from "./judgeCards.js";
import { offByToners } from "./offByToners.js";
import { leftOutComparisons, panelsToInfer } from "./panelsToInfer.js";
import { readableAngles } from "./readableAngles.js";
import { readCard } from "./readCard.js";
import { createWeights } from "./seenColours.js";
import { diagnoseSpray, type SprayDiagnosis } from "./spray/diagnoseSpray.js";
import { withFlakeAngles } from "./spray/withFlakeAngles.js";

/** A job made ready for arithmetic: the model tied to the card, the colours to reach, the limits as numbers. */
export interface Problem {
  readonly model: ForwardModel;
  readonly goal: Goal;
  readonly bench: Bench;
  /** Doubt of the pours as a quadratic form, n × n, row-major, in ΔE00². */
  readonly risk: Float64Array;
  /** Budget of work; every search counts its steps here. */
  readonly work: Work;
}

/** A problem with what it was posed from, and whether the readings can carry an answer at all. */
export interface PreparedProblem {
  readonly problem: Problem;
  readonly belief: Belief;
  /** Names of the cards of the belief, in their order. */
  readonly believed: readonly string[];
  /** Whether the last card can come from its pot. */
  readonly judgement: Judgement;
  /** How the flakes lie; only where that can be told. */
  readonly spray?: SprayDiagnosis;
  readonly warnings: readonly Warning[];
  readonly isReadable: boolean;
  /** The match rests on an eye: nothing is proved of it. */
  readonly isByEye: boolean;
  /** The readings can be used and the last card is believed, so that additions can be computed. */
  readonly carriesAnswer: boolean;
  /** Can be answered, and the answer does not rest on an eye. */
  readonly carriesProof: boolean;
}

/** Share of the work that goes to cards and panels at most; share of that which goes to the cards. */
const BELIEF_SHARE = 0.5;
const CARDS_SHARE = 0.7;
const WHAT_IS_CUT = "what cards and panels say of cans and paint, and which slip may explain the card";

/** Most cards of one pot that are used, the last ones; older ones add next to nothing (design value). */
const MOST_TOGETHER = 6;

/**
 * Works at the geometries that the last card shares with the targets and that both show (`readableAngles`), on the bands
 * that toners and readings share; an earlier card that lacks one of them is passed over with a warning. Toners are in the
 * order of their ids, so that between two that do the same no other order decides. Every card is judged by those before
 * it that are believed; the last one is tied to, believed or not.
 */
export function prepareProblem(job: CheckedJob, work: Work = workFor()): PreparedProblem {
  const { viewing, targets } = job;
  const given = cardsOf(job).slice(-MOST_TOGETHER);
  const last = given[given.length - 1];
  const { path: cardPath } = last;
  const toners = { ...job.toners, toners: [...job.toners.toners].sort((a, b) => (a.id < b.id ? -1 : 1)) };
  const ofTargets = targets.map(({ readings }, t) => ({ readings, path: `targets[${t}].readings` }));
  for (const target of ofTargets) checkGeometries(toners, target);
  targets.forEach(({ colours }, t) => {
    checkGeometries(toners, { readings: colours, path: `targets[${t}].colours` });
  });
  const eye = geometryOfEye(job);
  const angles = readableAngles(
    toners,
    { ...last, seenAt: seenAtOfCard(last) },
    ofTargets.map((target, t) => ({ ...target, seenAt: geometriesSeen(targets[t], eye) })),
    (target, geometry) => offByToners(job, target, geometry),
  );
  const wanted = new Set(angles.ofTargets.flat());
  const { cards, warnings: passedOver } = cardsReadAt(given, wanted);
  const read = [...cards, ...ofTargets].filter(({ readings }) => readings.length > 0);
  const scene = createScene(toners, read, (geometry) => wanted.has(geometry), cardPath);
  const { grid, geometries } = scene;
  const bench = createBench({ ...job, toners });
  const bare = createForwardModel(atFullStrength(scene.toners), viewing, geometries);
  const sizes = job.belief;
  const own = work.share(BELIEF_SHARE);
  const prior = { model: bare, ...canPrior(toners, sizes.strengthSd), sizes, work: own };
  const weightsOf = createWeights(bare);
  const readCards = cards.map((card, c) => {
    const grams = gramsInOrder(card.pot, toners.toners);
    checkScatters(bare, grams, job.card ? "pot" : cards[c].path.replace("readings", "pot"));
    return readCard(card, grams, { model: bare, aligned: scene.aligned, weightsOf });
  });
  const { judgement, believed, ofCards, outvoted } = judgeCards(
    { ...prior, work: own.share(CARDS_SHARE) },
    readCards,
    cards,
  );
  const asked = panelsToInfer(job, bare, { toners, names: believed, weightsOf });
  const { belief, inferred } =
    asked.length === 0
      ? { belief: ofCards, inferred: [] }
      : inferPanels(
          { ...ofCards, prior },
          asked.map(({ panel }) => panel),
        );
  const model = tie(belief);
  const goal = createGoal(
    withFlakeAngles(job, model, belief.used),
    model,
    angles.ofTargets,
    new Map(asked.map(({ target }, panel) => [target, { ...inferred[panel], panel }])),
  );
  const ofLast = readCards[readCards.length - 1];
  const spectra = [
    ...(ofLast.isExpected ? [] : geometries).map((_, geometry) => ({
      geometry,
      path: cardPath,
      reflectance: ofLast.reflectance.subarray(geometry * grid.count, (geometry + 1) * grid.count),
    })),
    ...goal.spectra
      .filter(({ isInferred: isGuess }) => !isGuess)
      .map((aim) => ({ ...aim, path: ofTargets[aim.target].path })),
  ];
  const censored = spectra.map(({ geometry, path, reflectance: values }) => ({
    path,
    bands: censoredBands(values, bare.surfaces[geometry]),
  }));
  const carriesAnswer = angles.isReadable && judgement.verdict === "believed";
  const byEye = isByEye(job);
  const spray = carriesAnswer ? diagnoseSpray(belief, { model, panels: goal.spectra }, targets) : undefined;
  return {
    problem: { model, goal, bench, risk: risk(belief, goal.aims), work },
    belief,
    believed,
    judgement,
    ...(spray && { spray }),
    warnings: [
      ...scene.warnings,
      ...angles.warnings,
      ...passedOver,
      ...censored.flatMap(({ bands, path }) => censoredWarnings(bands, grid, path)),
      ...(carriesAnswer && !belief.posterior.converged && !own.isSpent() ? [notConverged(cardPath)] : []),
      ...cardWarnings({ judgement, ...(outvoted && { outvoted }) }, cardPath),
      ...leftOutComparisons(job, believed),
      ...panelWarnings(
        asked.filter((_, p) => inferred[p].isUnexplained).map(({ target }) => `targets[${target}].formula`),
      ),
      ...potWarnings(bench, job),
      ...effectPigmentWarnings(toners.toners, bench.pot),
      ...workWarnings(own.isSpent() ? [WHAT_IS_CUT] : []),
    ],
    isReadable: angles.isReadable,
    isByEye: byEye,
    carriesAnswer,
    carriesProof: carriesAnswer && !byEye,
  };
}

/** The cards that were read at every geometry that is worked at, the last one among them. */
function cardsReadAt<C extends { readonly name: string } & ReadSurface>(
  given: readonly C[],
  wanted: ReadonlySet<Geometry>,
): { readonly cards: readonly C[]; readonly warnings: readonly Warning[] } {
  const lacking = ({ readings }: C) =>
    readings.length === 0
      ? []
      : [...wanted].filter((geometry) => readings.every((reading) => reading.geometry !== geometry));
  return {
    cards: given.filter((card) => lacking(card).length === 0),
    warnings: given.flatMap((card): readonly Warning[] => {
      const missing = lacking(card);
      if (missing.length === 0) return [];
      const message = `${card.name} is passed over: it was not read at ${missing.map((one) => `"${one}"`).join(", ")}, where the last card was`;
      return [{ code: "angle-left-out", message, path: card.path }];
    }),
  };
}

function notConverged(path: string): Warning {
  const message =
    "what the cards say was not worked out to the end: expect the next card to differ more than is stated";
  return { code: "not-converged", message, path };
}

function panelWarnings(paths: readonly string[]): readonly Warning[] {
  const message =
    "this panel does not look like its formula, faded: another formula, or repainted; its colour is aimed at all the same, but how it changes with the light is less sure";
  return paths.map((path) => ({ code: "unexplained-panel", message, path }));
}

function potWarnings({ pot }: Bench, { limits }: CheckedJob): readonly Warning[] {
  const total = sum(pot);
  const most = limits.potMaxGrams;
  if (most === undefined || total <= most) return [];
  const message = `the pot holds ${Math.ceil(100 * total) / 100} g already, more than potMaxGrams (${most} g): nothing can be added`;
  return [{ code: "pot-over-limit", message, path: "pot" }];
}
