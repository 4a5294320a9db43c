import { correct } from "../../../src/correction/correct.js";
import type { Correction } from "../../../src/correction/correction.js";
import type { ForecastOptions } from "../../../src/forecast/forecastOptions.js";
import type { Job } from "../../../src/problem/job.js";
import type { Grams } from "../../../src/toners/pot.js";
import type { TonerSet } from "../../../src/toners/tonerSet.js";
import { GROUPS, type Group } from "../../simulator/formulas.js";
import { createWorld, type WorldOptions } from "../../simulator/world.js";

const VIEWING = { observer: "1964-10", illuminants: [{ name: "D65" }, { name: "A", weight: 0.3 }] } as const;

/** What is kept back of each strong toner in the first pot: 5 to 25 %. */
const KEPT_BACK = { least: 0.05, most: 0.25 };
const HARDEST_FADE = 0.3;

/** One correction in the simulated shop: what was forecast, and the card that came of it. */
export interface SimulatedStep {
  readonly group: Group;
  readonly job: Job;
  readonly correction: Correction;
  /** The next card as read. */
  readonly next: ArrayLike<number>;
}

/**
 * Job number `seed`: a formula, a panel that has faded, a first pot with some of the strong toners kept back, its card;
 * then everything is poured that `correct` asks for, and another card sprayed.
 */
export function simulatedStep(
  seed: number,
  toners: TonerSet,
  forecast: ForecastOptions = {},
  options: Partial<WorldOptions> = {},
): SimulatedStep {
  const group = GROUPS[seed % GROUPS.length];
  const world = createWorld(seed, toners, options);
  const formula = world.formula(group, 200);
  const panel = world.panel(formula, HARDEST_FADE * world.random.uniform());
  const first = Object.fromEntries(
    Object.entries(formula).map(([id, grams]) => {
      const isWeak = id === "white" || id.endsWith("let-down");
      const back = KEPT_BACK.least + (KEPT_BACK.most - KEPT_BACK.least) * world.random.uniform();
      return [id, isWeak ? grams : Math.round(10 * grams * (1 - back)) / 10];
    }),
  );
  const pot = world.pour(first);
  const job: Job = {
    toners,
    viewing: VIEWING,
    pot: pot.shown,
    card: { readings: [world.card(pot)] },
    targets: [{ name: "panel", readings: [panel.reading] }],
  };
  const correction = correct(job, { alternatives: false, wayOut: false, forecast });
  const asked: Grams = Object.fromEntries(correction.additions.map(({ toner, grams }) => [toner, grams]));
  return { group, job, correction, next: world.card(world.pour(asked, pot)).reflectance };
}
