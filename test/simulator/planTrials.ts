import { ciede2000 } from "../../src/colorimetry/ciede2000.js";
import { createWork } from "../../src/core/createWork.js";
import { fitFade } from "../../src/planning/fade/fitFade.js";
import { type PanelFade, panelFade } from "../../src/planning/fade/panelFade.js";
import { isExplained, rankFormulas } from "../../src/planning/fade/rankFormulas.js";
import { drawRecipes } from "../../src/planning/holdBack/drawRecipes.js";
import { massToReach } from "../../src/planning/holdBack/massToReach.js";
import { paintColours, paintReflectance } from "../../src/planning/holdBack/paintColours.js";
import { checkPlanJob, type Formula, type PlanJob } from "../../src/planning/holdBack/planJob.js";
import { holdBack } from "../../src/planning/holdBack/planPot.js";
import { preparePlan } from "../../src/planning/holdBack/planProblem.js";
import { type Grams, gramsById, gramsInOrder } from "../../src/toners/pot.js";
import type { TonerSet } from "../../src/toners/tonerSet.js";
import { GROUPS, type Group } from "./formulas.js";
import { PAINT_PHYSICS, type PaintPhysics } from "./paint.js";
import { IDS, PIGMENTS } from "./pigments.js";
import { createWorld, knownToners, type Panel, type World } from "./world.js";

/** A first pot planned for panels of the simulated world, and what is true of it. */
export interface ReachTrial {
  readonly group: Group;
  /** Whether every panel's true recipe can be reached from the pot as really poured, and from the full formula. */
  readonly isReached: boolean;
  readonly isReachedFromFull: boolean;
  /** Share that was kept back of all toners but the one there is most of. */
  readonly keptBack: number;
}

/** What the planner made of panels painted with one of two formulas. */
export interface FadeTrial {
  readonly group: Group;
  readonly isFreshRead: boolean;
  readonly fractions: readonly KnownFraction[];
  /** Between the two formulas freshly mixed, by the planner's model, D65. */
  readonly variantDeltaE00: number;
  readonly right: Verdict;
  readonly wrong: Verdict;
}

/** What the planner said is left of a toner, the one there is most of being put in to the gram, and what is. */
export interface KnownFraction {
  readonly truth: number;
  readonly found: number;
  readonly low: number;
  readonly high: number;
  readonly isFugitive: boolean;
}

export interface Verdict {
  readonly explains: boolean;
  readonly isFirst: boolean;
}

/** Half the streams of the usual world: as far from Kubelka–Munk, and quick enough for thousands of shops. */
const TRIAL_PHYSICS: PaintPhysics = Object.freeze({ ...PAINT_PHYSICS, streams: 4 });

/** The toners of these shops as the package knows them, without what the characterisation says of its doubt. */
export function trialToners(): TonerSet {
  const { grid, surfaces, toners } = knownToners(1, TRIAL_PHYSICS);
  return { grid, surfaces, toners };
}

/** How far the panels' paint was off its formula (sd of ln): as much as refinish mixing is said to be, no source. */
const BATCH_SD = 0.05;
const FORMULA_GRAMS = 300;
const VARIANT_SD = 0.35;

/** Iron oxides are known not to fade; whoever mixes says so. */
const MINERAL = { meanLoss: 0.01, sdLoss: 0.01 };

/** A shop, its panels and what the planner is told of them. */
function setUp(seed: number, toners: TonerSet, options: PlanJob["options"]) {
  const world = createWorld(seed, toners, { physics: TRIAL_PHYSICS });
  const { random } = world;
  const group = GROUPS[seed % GROUPS.length];
  const grams = world.formula(group, FORMULA_GRAMS);
  const asMixed = scattered(grams, BATCH_SD, world);
  const panels = Array.from({ length: 1 + random.integer(3) }, () =>
    world.panel(asMixed, 0.5 * random.uniform() ** 1.5),
  );
  const isFreshRead = random.uniform() < 0.5;
  const fresh = isFreshRead ? { readings: [world.panel(asMixed, 0).reading] } : {};
  const right: Formula = { name: "right", grams, ...fresh };
  const wrong: Formula = { name: "wrong", grams: variantOf(grams, world) };
  const job = checkPlanJob({
    toners,
    viewing: { observer: "1964-10", illuminants: [{ name: "D65" }, { name: "A", weight: 0.3 }] },
    formulas: [right, wrong],
    panels: panels.map(({ reading }, p) => ({ name: `panel ${p}`, readings: [reading] })),
    wantedGrams: FORMULA_GRAMS,
    limits: { scaleStepGrams: 0.1 },
    fadePriors: { "red-oxide": MINERAL, "yellow-oxide": MINERAL },
    options: { draws: 400, ...options },
  });
  return { world, group, asMixed, panels, job };
}

/**
 * The first pot for one shop. The most fugitive toner of a panel has lost up to half, small losses being the likelier
 * (the planner takes losses for log-normal); yellowing comes and goes with the fade. Cans, scale, pouring, instrument
 * and film are those of the world. Yellowing is not imitated, which the true recipes do not hold either.
 */
export function reachTrial(seed: number, toners: TonerSet, options: PlanJob["options"] = {}): ReachTrial {
  const { world, group, asMixed, panels, job } = setUp(seed, toners, options);
  const plan = preparePlan(job);
  const { formulas } = plan;
  const fit = fitFade(plan, formulas[0], job);
  const nothing = new Float64Array(toners.toners.length);
  const draws = drawRecipes(
    fit,
    plan.prior,
    panels.map(() => nothing),
    { ...job.options, work: createWork(Number.POSITIVE_INFINITY) },
  );
  const all = [...panels.keys()];
  const { pot, task } = holdBack({ job, formula: formulas[0].grams, draws }, all, FORMULA_GRAMS);
  const reaches = (start: Float64Array) => {
    const poured = gramsInOrder(world.pour(gramsById(start, toners.toners)).poured, toners.toners);
    return panels.every(
      (panel) => massToReach(poured, trueRecipe(asMixed, panel, world, toners)) <= task.mostGrams,
    );
  };
  const most = largest(task.full);
  const coloured = fit.toners.filter((j) => j !== most);
  return {
    group,
    isReached: reaches(pot),
    isReachedFromFull: reaches(task.full),
    keptBack: 1 - sumOf(pot, coloured) / sumOf(task.full, coloured),
  };
}

/** What the planner says of fade and formulas in one shop, set up as for `reachTrial`. */
export function fadeTrial(seed: number, toners: TonerSet, options: PlanJob["options"] = {}): FadeTrial {
  const { group, asMixed, panels, job } = setUp(seed, toners, options);
  const plan = preparePlan(job);
  const { model, formulas } = plan;
  const fits = formulas.map((formula) => fitFade(plan, formula, job));
  const [first] = rankFormulas(job, fits);
  const all = [...panels.keys()];
  const verdict = (f: number): Verdict => {
    const judged = all.map((p) => panelFade(fits[f], p));
    return { explains: judged.every(isExplained), isFirst: first.formula === job.formulas[f].name };
  };
  const [right, wrong] = formulas.map(({ grams }) => paintColours(model, paintReflectance(model, grams))[0]);
  return {
    group,
    isFreshRead: job.formulas[0].readings !== undefined,
    fractions: panels.flatMap((panel, p) =>
      fractionsOf(panel, panelFade(fits[0], p), { grams: job.formulas[0].grams, asMixed }),
    ),
    variantDeltaE00: ciede2000(right, wrong),
    right: verdict(0),
    wrong: verdict(1),
  };
}

/** Grams of today's cans that put on the panel what absorbs there today. */
function trueRecipe(asMixed: Grams, { left }: Panel, { cans }: World, { toners }: TonerSet): Float64Array {
  return gramsInOrder(
    Object.fromEntries(Object.entries(asMixed).map(([id, amount]) => [id, (amount * left[id]) / cans[id]])),
    toners,
  );
}

function fractionsOf(
  { left }: Panel,
  { remaining }: PanelFade,
  { grams, asMixed }: { readonly grams: Grams; readonly asMixed: Grams },
): readonly KnownFraction[] {
  const most = Object.keys(grams).reduce((best, id) => (grams[id] > grams[best] ? id : best));
  const batch = (id: string) => asMixed[id] / grams[id];
  return remaining
    .filter(({ toner }) => toner !== most)
    .map(({ toner, fraction, low, high }) => ({
      truth: (left[toner] * batch(toner)) / batch(most),
      found: fraction,
      low,
      high,
      isFugitive: (PIGMENTS.find(({ id }) => id === toner)?.fugitive ?? 0) > 0,
    }));
}

/** Another shade on the variant card: every toner but white off by a third or so, or one exchanged for another. */
function variantOf(grams: Grams, world: World): Grams {
  const { random } = world;
  if (random.uniform() < 0.5) return scattered(grams, VARIANT_SD, world, (id) => id !== "white");
  const chromatic = (id: string) => PIGMENTS.some((one) => one.id === id && one.role === "chromatic");
  const inside = Object.keys(grams).filter(chromatic);
  const outside = IDS.filter((id) => chromatic(id) && !(id in grams) && !id.endsWith("let-down"));
  const out = inside[random.integer(inside.length)];
  const into = outside[random.integer(outside.length)];
  return Object.fromEntries(Object.entries(grams).map(([id, amount]) => [id === out ? into : id, amount]));
}

function scattered(grams: Grams, sd: number, { random }: World, isMoved = (_: string) => true): Grams {
  return Object.fromEntries(
    Object.entries(grams).map(([id, amount]) => [
      id,
      isMoved(id) ? amount * Math.exp(sd * random.normal()) : amount,
    ]),
  );
}

const largest = (values: Float64Array): number =>
  values.reduce((best, value, j) => (value > values[best] ? j : best), 0);

const sumOf = (values: Float64Array, toners: readonly number[]): number =>
  toners.reduce((sum, j) => sum + values[j], 0);
