import { predict } from "../../../src/prediction/predict.js";
import type { Job } from "../../../src/problem/job.js";
import type { Limits } from "../../../src/problem/limits.js";
import type { Grams } from "../../../src/toners/pot.js";
import type { Toner } from "../../../src/toners/toner.js";
import type { TonerSet } from "../../../src/toners/tonerSet.js";
import { horseboxJob, type OneCardJob } from "../../fixtures/horsebox.js";

const job = horseboxJob();
const all = job.toners;
const excluded = "d:8 specular excluded";
const bands = all.grid.count;

/** What an exact instrument would read of a pot that the model describes. */
export function readingsOf(toners: TonerSet, pot: Grams): OneCardJob["card"]["readings"] {
  return predict({ toners, viewing: job.viewing, pot }).readings.map(({ geometry, grid, reflectance }) => ({
    geometry,
    grid,
    reflectance,
  }));
}

/** A job whose panel is another mix of the same toners. */
export const between = (toners: TonerSet, pot: Grams, panel: Grams, more: Partial<Job> = {}): OneCardJob => ({
  toners,
  viewing: job.viewing,
  pot,
  card: { readings: readingsOf(toners, pot) },
  targets: [{ name: "panel", readings: readingsOf(toners, panel) }],
  ...more,
});

const some = (...ids: readonly string[]): TonerSet => ({
  ...all,
  toners: all.toners.filter(({ id }) => ids.includes(id)),
});

const withToner = (toner: Toner): TonerSet => ({ ...all, toners: [...all.toners, toner] });

const flat = (k: number, s: number): Pick<Toner, "k" | "s"> => ({
  k: { [excluded]: new Array<number>(bands).fill(k) },
  s: { [excluded]: new Array<number>(bands).fill(s) },
});

const limited = (limits: Limits): Job => ({ ...job, limits });

/** Five variants of every toner of the example, none of them the same as another. */
const sixty: TonerSet = {
  ...all,
  toners: all.toners.flatMap((toner, t) =>
    Array.from({ length: 5 }, (_, variant) => ({
      ...toner,
      id: `${toner.id}-${variant}`,
      k: {
        [excluded]: Array.from(
          toner.k[excluded] ?? [],
          (k, b) => k * (1 + 0.08 * variant * Math.sin(b / 5 + t)),
        ),
      },
    })),
  ),
};

/** The example's toners read at two geometries, the second with a surface of its own. */
const twoGeometries: TonerSet = {
  ...all,
  surfaces: [...all.surfaces, { geometry: "45:0", k1: 0.05, k2: 0.6, crossing: 0.41 }],
  toners: all.toners.map((toner) => ({
    ...toner,
    k: { ...toner.k, "45:0": Array.from(toner.k[excluded] ?? [], (k) => 1.1 * k) },
    s: { ...toner.s, "45:0": Array.from(toner.s[excluded] ?? [], (s) => 0.95 * s) },
  })),
};

const scaled = (factor: (band: number) => number): Job["targets"] =>
  job.targets.map((target) => ({
    ...target,
    readings: target.readings.map((reading) => ({
      ...reading,
      reflectance: Array.from(reading.reflectance, (r, b) => Math.min(0.95, r * factor(b))),
    })),
  }));

const censored = (): Job => {
  const geometry = "d:8 specular included";
  const toners = {
    ...all,
    surfaces: [{ geometry, k1: 0.04, k2: 0.6 }] as const,
    toners: all.toners.map((toner) => ({
      ...toner,
      k: { [geometry]: toner.k[excluded] ?? [] },
      s: { [geometry]: toner.s[excluded] ?? [] },
    })),
  };
  const read = (r: number) =>
    ({ geometry, grid: all.grid, reflectance: new Array<number>(bands).fill(r) }) as const;
  return {
    ...job,
    toners,
    card: { readings: [read(0.0395)] },
    targets: [{ name: "panel", readings: [read(0.3)] }],
  };
};

const pot = job.pot;
const panel = { ...pot, black: 0.6, yellow: 2 };
const onePanel = scaled(() => 0.97).slice(0, 1);
const empty = (...ids: readonly string[]): Grams => Object.fromEntries(ids.map((id) => [id, 0]));
const ids = all.toners.map(({ id }) => id);
const grey = some("white", "black", "ochre", "blue");

/** Every kind of job that is to be answered, by what is special about it. */
export const JOBS: Readonly<Record<string, Job>> = {
  "the shipped example": job,
  "a cup that is nearly full": limited({ potMaxGrams: 256 }),
  "a cup that is exactly full": limited({ potMaxGrams: 253 }),
  "a cup that is too small": limited({ potMaxGrams: 100 }),
  "no scale step": limited({ scaleStepGrams: 0 }),
  "a fine scale": limited({ scaleStepGrams: 0.01 }),
  "a coarse scale": limited({ scaleStepGrams: 2, potMaxGrams: 300 }),
  "a scale coarser than the room": limited({ scaleStepGrams: 50, potMaxGrams: 270 }),
  "one pour": limited({ maxPours: 1 }),
  "five pours": limited({ maxPours: 5 }),
  "more pours than toners": limited({ maxPours: 40, pourWorthDeltaE00: 0 }),
  "little stock": limited({ stockGrams: { black: 0.3, "weak-black": 1.05, yellow: 0.45 } }),
  "no stock of some": limited({ stockGrams: empty("black", "violet", "yellow") }),
  "no stock at all": limited({ stockGrams: empty(...ids) }),
  "a minimum pour": limited({ minPourGrams: 2 }),
  "a minimum pour between steps": limited({ minPourGrams: 0.75, scaleStepGrams: 0.5 }),
  "a minimum pour without a scale step": limited({ minPourGrams: 3, scaleStepGrams: 0 }),
  "a minimum pour larger than the room": limited({ minPourGrams: 30, potMaxGrams: 265 }),
  "drops of some": limited({ gramsPerDrop: { black: 0.025, yellow: 0.03 } }),
  "drops of all": limited({
    gramsPerDrop: Object.fromEntries(ids.map((id) => [id, 0.03])),
    potMaxGrams: 300,
  }),
  "drops and little stock of them": limited({ gramsPerDrop: { yellow: 0.03 }, stockGrams: { yellow: 0.1 } }),
  "pours that are worth much": limited({ pourWorthDeltaE00: 2 }),
  minimax: { ...job, objective: "minimax" },
  "minimax, one pour": { ...job, objective: "minimax", limits: { maxPours: 1 } },
  "one toner, which is in the pot": between(some("white"), { white: 100 }, { white: 50 }),
  "one toner that could be added": {
    ...between(grey, { white: 100 }, { white: 100, black: 1 }),
    limits: { stockGrams: empty("white", "ochre", "blue") },
  },
  "sixty toners": between(
    sixty,
    { "white-0": 180, "ochre-1": 14, "green-2": 9 },
    { "white-0": 180, "ochre-1": 16, "green-2": 9, "black-3": 0.8 },
  ),
  "identical toners": between(withToner({ ...all.toners[2], id: "black-again" }), pot, {
    ...pot,
    black: 0.8,
  }),
  "a toner that only scatters": between(withToner({ id: "veil", ...flat(0, 0.8) }), pot, {
    ...pot,
    veil: 20,
  }),
  "a toner that only absorbs": between(withToner({ id: "dye", ...flat(2, 0) }), pot, { ...pot, dye: 1 }),
  "a toner that does nothing": between(withToner({ id: "air", ...flat(0, 0) }), pot, panel),
  "a black pot": between(grey, { black: 100 }, { black: 100, white: 60 }),
  "a white pot": between(grey, { white: 100 }, { white: 100, black: 0.7, blue: 0.4 }),
  "a pot of one gram": between(grey, { white: 1 }, { white: 100, black: 0.7, blue: 0.4 }),
  "two geometries": between(twoGeometries, pot, panel),
  "a card read at more geometries than the panel": {
    ...between(twoGeometries, pot, panel),
    targets: [{ name: "panel", readings: readingsOf(all, panel) }],
  },
  "three lights": {
    ...job,
    viewing: {
      observer: "1931-2",
      illuminants: [{ name: "D65" }, { name: "A", weight: 0.3 }, { name: "F11", weight: 0.5 }],
    },
  },
  "a light and a target of no weight": {
    ...job,
    viewing: { observer: "1964-10", illuminants: [{ name: "D65" }, { name: "A", weight: 0 }] },
    targets: [...onePanel, { ...scaled(() => 0.8)[1], weight: 0 }],
  },
  "an edge and a blend": {
    ...job,
    targets: scaled((b) => 0.96 - 0.001 * b).map((target, i) => ({
      ...target,
      role: i === 0 ? ("edge" as const) : ("blend" as const),
    })),
  },
  "blends alone": { ...job, targets: job.targets.map((target) => ({ ...target, role: "blend" })) },
  "four targets that differ": {
    ...job,
    targets: [0.94, 0.97, 1, 1.03].map((factor) => ({ ...scaled(() => factor)[0], name: `panel ${factor}` })),
  },
  "the card again": { ...job, targets: [{ name: "card", readings: job.card.readings }] },
  "a panel far lighter": { ...job, targets: scaled(() => 1.6) },
  "a panel of another colour": { ...job, targets: scaled((b) => (b < 15 ? 0.05 : 2)) },
  "a card darker than its surface": censored(),
};
