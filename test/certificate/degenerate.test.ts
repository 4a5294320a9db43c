import { describe, expect, it } from "vitest";
import { verifyCertificate } from "../../src/certificate/checker/verifyCertificate.js";
import { certify } from "../../src/certificate/prover/certify.js";
import { correct } from "../../src/correction/correct.js";
import type { Job } from "../../src/problem/job.js";
import type { Grams } from "../../src/toners/pot.js";
import type { Toner } from "../../src/toners/toner.js";
import type { TonerSet } from "../../src/toners/tonerSet.js";
import { readingsOf } from "../correction/contract/jobs.js";
import { horseboxJob, type OneCardJob } from "../fixtures/horsebox.js";
import { leastMeasures } from "./leastMeasures.js";

const job = horseboxJob();
const { geometry } = job.toners.surfaces[0];
const [first] = job.targets;
const byId = (id: string): Toner => {
  const toner = job.toners.toners.find((candidate) => candidate.id === id);
  if (!toner) throw new Error(`the example has no ${id}`);
  return toner;
};
const bands = job.toners.grid.count;
const flat = (value: number) => ({ [geometry]: new Array<number>(bands).fill(value) });
/** A pot and the card that the model gives it: one that no pot gives is judged before anything else. */
const cardOf = (toners: TonerSet, pot: Grams) => ({
  toners,
  pot,
  card: { readings: readingsOf(toners, pot) },
});
const withToners = (toners: readonly Toner[], pot: Job["pot"], limits: Job["limits"] = {}): Job => ({
  ...job,
  ...cardOf({ grid: job.toners.grid, surfaces: job.toners.surfaces, toners }, pot),
  limits: { maxPours: 4, scaleStepGrams: 0.1, ...limits },
});
const reading = (reflectance: (band: number) => number) => ({
  geometry,
  grid: job.toners.grid,
  reflectance: Array.from({ length: bands }, (_, band) => reflectance(band)),
});
const towards = (one: Job, reflectance: (band: number) => number): Job => ({
  ...one,
  targets: [{ name: "panel", readings: [reading(reflectance)] }],
});
const copies = (count: number): readonly Toner[] =>
  Array.from({ length: count }, (_, i) => {
    const toner = job.toners.toners[i % job.toners.toners.length];
    return { ...toner, id: `${toner.id}-${i}`, strength: 1 + 0.01 * i };
  });

/** The example seen at two more angles, at which black absorbs a little more and targets ask for a little less. */
function atThreeAngles(): Job {
  const angles = [geometry, "45as15", "45as110"] as const;
  const everywhere = (spectra: Toner["k"], more: number) =>
    Object.fromEntries(
      angles.map((angle, i) => [
        angle,
        Array.from(spectra[geometry] ?? [], (value) => value * (1 + more * i)),
      ]),
    );
  const readings = (of: OneCardJob["card"]["readings"], less: number) =>
    angles.flatMap((angle, i) =>
      of.map(({ grid, reflectance }) => ({
        geometry: angle,
        grid,
        reflectance: Array.from(reflectance, (r) => r * (1 - less * i)),
      })),
    );
  const [{ k1, k2 }] = job.toners.surfaces;
  return {
    ...job,
    toners: {
      grid: job.toners.grid,
      surfaces: angles.map((angle) => ({ geometry: angle, k1, k2 })),
      toners: job.toners.toners.map((toner) => ({
        ...toner,
        k: everywhere(toner.k, toner.id === "black" ? 0.1 : 0),
        s: everywhere(toner.s, 0),
      })),
    },
    card: { readings: readings(job.card.readings, 0) },
    targets: job.targets.map((target, i) => ({
      ...target,
      role: i === 0 ? "edge" : "blend",
      readings: readings(target.readings, 0.15),
    })),
  };
}

const white = byId("white");
const black = byId("black");
const emptied = Object.fromEntries(job.toners.toners.map(({ id }) => [id, 0]));

const CASES: readonly (readonly [name: string, job: Job])[] = [
  ["one toner", withToners([white], { white: 100 })],
  ["one toner, far", towards(withToners([white], { white: 100 }), () => 0.1)],
  [
    "two identical toners",
    withToners([white, black, { ...black, id: "black-too" }], { white: 100, black: 1 }),
  ],
  ["sixty toners", withToners(copies(60), { "white-0": 100, "black-2": 1 })],
  [
    "sixty toners, far",
    towards(withToners(copies(60), { "white-0": 100, "black-2": 1 }), (b) => (b < 15 ? 0.03 : 0.9)),
  ],
  [
    "a toner that does not absorb",
    withToners([white, black, { id: "chalk", k: flat(0), s: flat(0.3) }], { white: 100, black: 5 }),
  ],
  [
    "a toner that does not scatter",
    withToners([white, { id: "dye", k: flat(0.8), s: flat(0) }], { white: 100 }),
  ],
  [
    "a clear that does neither",
    withToners([white, black, { id: "nothing", k: flat(0), s: flat(0) }], { white: 100, black: 1 }),
  ],
  ["a pot of black", withToners(job.toners.toners, { black: 100 })],
  ["a pot of white", withToners(job.toners.toners, { white: 100 })],
  ["empty stock", { ...job, limits: { stockGrams: emptied } }],
  ["no room", { ...job, limits: { potMaxGrams: 1 } }],
  ["a target of no weight", { ...job, targets: job.targets.map((target, i) => ({ ...target, weight: i })) }],
  [
    "a light of no weight",
    { ...job, viewing: { ...job.viewing, illuminants: [{ name: "D65" }, { name: "A", weight: 0 }] } },
  ],
  [
    "targets that contradict each other",
    { ...job, targets: [first, { ...first, name: "dark", readings: [reading(() => 0.1)] }] },
  ],
  ["three angles that ask for different things, an edge and a blend", atThreeAngles()],
  ["a mirror for a target", towards(job, () => 0.99)],
  ["a hole for a target", towards(job, () => 0.012)],
];

describe("certificates at the edges", () => {
  it.each(CASES)("%s", (_, one) => {
    const correction = correct(one);
    const certificate = certify(one, correction);
    expect(verifyCertificate(one, correction, certificate)).toEqual({ isValid: true });
    const { weightedDeltaE00, worstOfAllowed, verdict } = certificate;
    for (const number of Object.values({ ...weightedDeltaE00 })) expect(Number.isFinite(number)).toBe(true);
    if (verdict === "undetermined") expect(correction.stopReason).toBe("readings-censored");
    const least = leastMeasures(one, { additions: 1500, seed: 1 });
    expect(least.weighted).toBeGreaterThanOrEqual(weightedDeltaE00.atLeast);
    expect(least.worst).toBeGreaterThanOrEqual(worstOfAllowed.atLeast);
    expect(verdict === "matched").toBe(["corrected", "good-enough"].includes(correction.status));
    expect(correction.wayOut !== null).toBe(correction.status === "out-of-reach");
  });

  it.each([
    "no room",
    "empty stock",
    "sixty toners, far",
    "one toner, far",
    "targets that contradict each other",
    "three angles that ask for different things, an edge and a blend",
    "a hole for a target",
  ])("prove %s out of reach", (name) => {
    const one = CASES.find(([other]) => other === name)?.[1] ?? job;
    expect(certify(one, correct(one, { wayOut: false })).verdict).toBe("proved-out-of-reach");
  });
});
