import { describe, expect, it } from "vitest";
import { type Form, mixForms, mostRatio, sumOf } from "../../src/certificate/checker/mixForms.js";
import { addUp, proofRows } from "../../src/certificate/checker/proofRows.js";
import type { BandRange } from "../../src/certificate/checker/underColour.js";
import type { Ranges } from "../../src/certificate/prover/bandEstimates.js";
import { aimBall } from "../../src/certificate/prover/colourRows.js";
import { differenceNorm } from "../../src/certificate/prover/differenceNorm.js";
import { dualNorm, measured, radius } from "../../src/certificate/prover/measure.js";
import {
  createReach,
  type Functional,
  largestRatio,
  type Reach,
} from "../../src/certificate/prover/reach.js";
import { type Case, createRows, type Setting } from "../../src/certificate/prover/relaxation.js";
import { startRanges } from "../../src/certificate/prover/startRanges.js";
import type { Measure, Proof } from "../../src/certificate/records/proof.js";
import type { Lab } from "../../src/colorimetry/lab.js";
import { createWork } from "../../src/core/createWork.js";
import type { Evaluation } from "../../src/forward/evaluate.js";
import type { Random } from "../../src/numeric/probability/random.js";
import { after as seenWith } from "../../src/problem/after.js";
import { labAt } from "../../src/problem/goal.js";
import type { Problem } from "../../src/problem/problem.js";
import { gramsById } from "../../src/toners/pot.js";
import { randomAdditions, randomOf, smallProblem } from "./smallProblems.js";

const seeds = [0, 3, 9, 12, 13];

/** What a functional of the maker gives for additions in the order of the toner set. */
const valueAt = ({ free }: Reach, f: Functional, additions: ArrayLike<number>) =>
  free.reduce((sum, j, i) => sum + f[i + 1] * additions[j], f[0]);
const formOf = (form: Form, additions: ArrayLike<number>) =>
  form.slice(1).reduce((sum, value, j) => sum + value * additions[j], form[0]);

/** Columns of the maker in a form of the checker: those that may be added. */
const columnsOf = ({ free }: Reach, form: Form) => [form[0], ...free.map((j) => form[j + 1])];

const expectClose = (ours: ArrayLike<number>, theirs: ArrayLike<number>, what: string) => {
  const size = Math.max(...Array.from(theirs, Math.abs), 1e-12);
  expect(ours.length, what).toBe(theirs.length);
  for (let i = 0; i < ours.length; i++) {
    expect(Math.abs(ours[i] - theirs[i]) / size, `${what}, entry ${i}`).toBeLessThan(1e-9);
  }
};

/** The problem with some of its toners out of stock, some of little. */
function rationed(problem: Problem, random: Random): Problem {
  const { bench } = problem;
  const stock = bench.stock.map((most) => {
    const dice = random.uniform();
    return dice < 0.2 ? 0 : dice < 0.5 ? Math.min(most, bench.room * random.uniform()) : most;
  });
  return { ...problem, bench: { ...bench, stock } };
}

/** Ranges around what a mix has, `width` wide as a share. */
function rangesAround(
  reach: Reach,
  at: Evaluation,
  width: number,
  random: Random,
  additions: Float64Array,
): Ranges {
  const { size } = reach;
  const f = new Float64Array(reach.columns);
  const mean = valueAt(reach, reach.mean, additions);
  const made = { qLow: [0], qHigh: [0], sLow: [0], sHigh: [0] };
  for (let b = 0; b < size; b++) {
    for (let c = 0; c < reach.columns; c++) f[c] = reach.s[c * size + b];
    const q = at.k[b] / at.s[b];
    const s = valueAt(reach, f, additions) / mean;
    made.qLow[b] = q * (1 - width * random.uniform());
    made.qHigh[b] = q * (1 + width * random.uniform());
    made.sLow[b] = s * (1 - width * random.uniform());
    made.sHigh[b] = s * (1 + width * random.uniform());
  }
  const { qLow, qHigh, sLow, sHigh } = made;
  return {
    qLow: Float64Array.from(qLow),
    qHigh: Float64Array.from(qHigh),
    sLow: Float64Array.from(sLow),
    sHigh: Float64Array.from(sHigh),
  };
}

const asBandRanges = ({ qLow, qHigh, sLow, sHigh }: Ranges): readonly BandRange[] =>
  Array.from(qLow, (_, b) => ({ ratio: [qLow[b], qHigh[b]], scattering: [sLow[b], sHigh[b]] }));

/** Aims moved to within about two ΔE00 of what a mix gives, so that its colours lie in their boxes. */
function aimedNear(problem: Problem, lab: ArrayLike<number>, random: Random, isDark: boolean): Problem {
  const aims = problem.goal.aims.map((aim) => {
    const at: Lab = isDark ? [4, 0.5, -0.5] : labAt(lab, aim.place);
    const near = at.map((value) => value + random.normal());
    return { ...aim, lab: near as unknown as Lab };
  });
  return { ...problem, goal: { ...problem.goal, aims } };
}

/** What maker and checker need to write rows for one mix. */
function scene(seed: number, measure: Measure, width: number, isDark = false) {
  const random = randomOf(100 + seed);
  const base = rationed(smallProblem(seed).problem, random);
  const additions = randomAdditions(base, random);
  const reference = randomAdditions(base, random);
  const at = seenWith(base, additions);
  const problem = aimedNear(base, at.lab, random, isDark);
  const { goal, model, bench } = problem;
  const reached = measured(measure, goal, at.lab);
  const level = isDark ? 1 : 1.2 * reached;
  const reach = createReach(problem, reference);
  const tangents = seenWith(problem, reference);
  // The last aim is left out, where there are two.
  const balls = goal.aims.map((aim, i) =>
    i > 0 && i === goal.aims.length - 1 ? undefined : aimBall(aim, level * radius(measure, aim)),
  );
  const directions = Array.from({ length: 5 }, () => {
    const along = balls.map(
      (ball): Lab => (ball ? [random.normal(), random.normal(), random.normal()] : [0, 0, 0]),
    );
    return { along, norms: along.map((n, i) => (balls[i] ? differenceNorm(balls[i].cells, n) : 0)) };
  });
  const most = directions.map(({ norms }) =>
    dualNorm(
      measure,
      norms.map((norm, i) => (norm > 0 ? norm * radius(measure, goal.aims[i]) : 0)),
    ),
  );
  const optics = {
    surfaces: model.surfaces,
    anchor: model.anchor,
    reference: tangents.k.map((k, b) => k / tangents.s[b]),
  };
  const setting: Setting = {
    model,
    reach,
    optics,
    level,
    balls,
    directions,
    most,
    work: createWork(Number.POSITIVE_INFINITY),
  };
  const ranges = rangesAround(reach, at, width, random, additions);
  const cases: readonly Case[] = [
    { band: 3, at: ranges.qHigh[3], side: "low" },
    { band: 20, at: ranges.qLow[20], side: "high" },
  ];
  const proof: Proof = {
    measure,
    level,
    bound: 0,
    reference: gramsById(reference, model.set.toners),
    boxes: balls.map((ball) => ball ?? null),
    directions,
    root: { rounds: [], end: [] },
  };
  const forms = mixForms(problem, Array.from(reference));
  const splits = cases.map(({ band, at: ratio, side }) => {
    const sign = side === "low" ? 1 : -1;
    return sumOf(
      [
        [sign, forms.absorption[band]],
        [-sign * ratio, forms.scattering[band]],
      ],
      forms.mean.length,
    );
  });
  return { problem, bench, additions, reached, reach, setting, ranges, cases, proof, forms, splits, random };
}

describe("maker and checker of certificates, written apart", () => {
  it.each(seeds)("have the same mixes (seed %i)", (seed) => {
    const random = randomOf(seed);
    const problem = rationed(smallProblem(seed).problem, random);
    const reference = randomAdditions(problem, random);
    const reach = createReach(problem, reference);
    const forms = mixForms(problem, Array.from(reference));
    const allowed = reach.free.map((j) => Math.min(problem.bench.stock[j], problem.bench.room));
    expect(reach.most).toEqual(allowed);
    // Columns are the toners that may be added, and no others.
    const { stock, room } = problem.bench;
    expect(reach.free).toEqual(Array.from(stock.keys()).filter((j) => stock[j] > 0));
    expect(createReach({ ...problem, bench: { ...problem.bench, room: 0 } }, reference).free).toEqual([]);
    expect(room).toBeGreaterThan(0);
    expect(reach.free.map((j) => forms.most[j])).toEqual(allowed);
    expect(forms.room).toBe(reach.room);
    expectClose(reach.mean, columnsOf(reach, forms.mean), "mean");
    for (let band = 0; band < reach.size; band++) {
      const k = Array.from({ length: reach.columns }, (_, c) => reach.k[c * reach.size + band]);
      const s = Array.from({ length: reach.columns }, (_, c) => reach.s[c * reach.size + band]);
      expectClose(k, columnsOf(reach, forms.absorption[band]), `K at band ${band}`);
      expectClose(s, columnsOf(reach, forms.scattering[band]), `S at band ${band}`);
    }
    // And these are the exact model, at any mix and at the one that they are divided by.
    const additions = randomAdditions(problem, random);
    const at = seenWith(problem, additions);
    const there = seenWith(problem, reference);
    for (let band = 0; band < reach.size; band++) {
      expect(formOf(forms.absorption[band], additions)).toBeCloseTo(at.k[band] / there.s[band], 10);
      expect(formOf(forms.scattering[band], additions)).toBeCloseTo(at.s[band] / there.s[band], 10);
      expect(forms.reference[band]).toBeCloseTo(there.k[band] / there.s[band], 10);
    }
    expect(formOf(forms.mean, reference)).toBeCloseTo(1, 10);
  });

  it.each(seeds)("have the same first ranges, which hold every mix (seed %i)", (seed) => {
    const random = randomOf(seed);
    const problem = rationed(smallProblem(seed).problem, random);
    const reference = randomAdditions(problem, random);
    const reach = createReach(problem, reference);
    const forms = mixForms(problem, Array.from(reference));
    const ranges = startRanges(reach);
    const least = (top: Form, bottom: Form) =>
      Math.max(
        0,
        -mostRatio(
          forms,
          top.map((value) => -value),
          bottom,
        ),
      );
    for (let b = 0; b < reach.size; b += 5) {
      const [k, s] = [forms.absorption[b], forms.scattering[b]];
      expect(ranges.qHigh[b]).toBeCloseTo(mostRatio(forms, k, s), 8);
      expect(ranges.qLow[b]).toBeCloseTo(least(k, s), 8);
      expect(ranges.sHigh[b]).toBeCloseTo(mostRatio(forms, s, forms.mean), 8);
      expect(ranges.sLow[b]).toBeCloseTo(least(s, forms.mean), 8);
    }
    for (let i = 0; i < 40; i++) {
      const additions = randomAdditions(problem, random);
      const { k, s } = seenWith(problem, additions);
      const mean = valueAt(reach, reach.mean, additions);
      for (let b = 0; b < reach.size; b++) {
        const scattering = Array.from({ length: reach.columns }, (_, c) => reach.s[c * reach.size + b]);
        const share = valueAt(reach, Float64Array.from(scattering), additions) / mean;
        expect(k[b] / s[b]).toBeLessThanOrEqual(ranges.qHigh[b] * (1 + 1e-9));
        expect(k[b] / s[b]).toBeGreaterThanOrEqual(ranges.qLow[b] * (1 - 1e-9) - 1e-12);
        expect(share).toBeLessThanOrEqual(ranges.sHigh[b] * (1 + 1e-9));
        expect(share).toBeGreaterThanOrEqual(ranges.sLow[b] * (1 - 1e-9));
      }
    }
  });

  const kinds = (["weighted", "worst"] as const).flatMap((measure) =>
    [false, true].map((isDark) => ({ measure, isDark })),
  );

  it.each(seeds.flatMap((seed) => kinds.map((kind) => ({ seed, ...kind }))))(
    "write the same rows: $measure, seed $seed, all but black: $isDark",
    ({ seed, measure, isDark }) => {
      const { problem, reach, setting, ranges, cases, proof, forms, splits } = scene(
        seed,
        measure,
        0.3,
        isDark,
      );
      const ours = createRows(setting, ranges, cases);
      const theirs = proofRows({ problem, proof, forms }, asBandRanges(ranges), splits);
      expect(ours.functionals.length).toBe(theirs.forms.length);
      expect(ours.functionals.length).toBe(2 + 6 * problem.goal.aims.length + 5);
      expectClose(ours.norms, theirs.norms, "norms");
      ours.functionals.forEach((f, r) => {
        expectClose(f, columnsOf(reach, theirs.forms[r]), `row ${r}`);
        const atLevel = f.map((value, c) => value - ours.norms[r] * setting.level * reach.mean[c]);
        expectClose(ours.atLevel[r], atLevel, `row ${r} at the level`);
      });
    },
  );

  it.each(seeds.flatMap((seed) => (["weighted", "worst"] as const).map((measure) => ({ seed, measure }))))(
    "write rows that the mix satisfies whose ranges and colours they are: $measure, seed $seed",
    ({ seed, measure }) => {
      for (const width of [0.5, 0.1, 1e-7]) {
        const { problem, additions, reached, reach, setting, ranges, cases } = scene(seed, measure, width);
        const rows = createRows(setting, ranges, cases);
        const mean = valueAt(reach, reach.mean, additions);
        const seen = seenWith(problem, additions);
        rows.functionals.forEach((f, r) => {
          const most = rows.norms[r] * reached;
          expect(valueAt(reach, f, additions) / mean, `row ${r}, ${width} wide`).toBeLessThanOrEqual(
            most + 1e-9,
          );
        });
        if (width > 1e-6) continue;
        // Ranges without width leave the exact colour: X ≤ X_high, X ≥ X_low, and so on.
        problem.goal.aims.forEach(({ place, light }, i) => {
          const ball = setting.balls[i];
          if (!ball) return;
          const { white } = problem.model.lights[light].tristimulus;
          for (const axis of [0, 1, 2]) {
            const colour = seen.xyz[place + axis] / white[axis];
            const row = (side: number) =>
              valueAt(reach, rows.functionals[cases.length + 6 * i + 2 * axis + side], additions) / mean;
            expect(row(0)).toBeCloseTo(colour - ball.high[axis], 5);
            expect(row(1)).toBeCloseTo(ball.low[axis] - colour, 5);
          }
        });
      }
    },
  );

  it("add up rows by their multipliers, and take nothing else for multipliers", () => {
    const rows = {
      forms: [
        [1, 2],
        [3, 4],
        [0, -1],
      ],
      norms: [0, 2, 5],
    };
    const sum = addUp(
      rows,
      [
        [0, 2],
        [1, 0.5],
      ],
      2,
    );
    expect(sum).toEqual({ form: [3.5, 6], norm: 1 });
    expect(addUp(rows, [], 2)).toEqual({ form: [0, 0], norm: 0 });
    expect(addUp(rows, [[2, 0]], 2)).toEqual({ form: [0, 0], norm: 0 });
    for (const bad of [
      [0.5, 1],
      [-1, 1],
      [3, 1],
      [0, -1e-9],
      [0, Number.POSITIVE_INFINITY],
      [0, Number.NaN],
    ] as const)
      expect(addUp(rows, [[1, 1], bad], 2)).toBeUndefined();
  });
});

describe("the largest ratio of two linear functions over the additions", () => {
  /** Corners of the additions allowed: toners poured to the brim in any order until the room is full. */
  function corners(most: readonly number[], room: number): readonly (readonly number[])[] {
    const found: number[][] = [];
    const pour = (poured: readonly number[], left: number) => {
      found.push([...poured]);
      most.forEach((grams, j) => {
        if (poured[j] > 0 || !(left > 0)) return;
        const next = poured.map((value, i) => (i === j ? Math.min(grams, left) : value));
        pour(next, left - next[j]);
      });
    };
    pour(
      most.map(() => 0),
      room,
    );
    return found;
  }

  it("is that of the best corner, tried one by one, and both hands find it", () => {
    const random = randomOf(4);
    for (let trial = 0; trial < 60; trial++) {
      const count = 1 + random.integer(4);
      const room = 10 * random.uniform();
      const most = Array.from({ length: count }, () => Math.min(room, 6 * random.uniform()));
      const top = Array.from({ length: count + 1 }, () => random.normal());
      const bottom = Array.from({ length: count + 1 }, () => 0.05 + random.uniform());
      const at = (form: readonly number[], grams: readonly number[]) =>
        grams.reduce((sum, g, j) => sum + g * form[j + 1], form[0]);
      const best = Math.max(...corners(most, room).map((grams) => at(top, grams) / at(bottom, grams)));
      const reach = {
        columns: count + 1,
        size: 0,
        free: most.map((_, j) => j),
        most,
        room,
        k: new Float64Array(),
        s: new Float64Array(),
        mean: new Float64Array(),
        poured: new Uint8Array(count + 1),
      };
      const forms = { most, room, absorption: [], scattering: [], mean: bottom, reference: [] };
      for (const found of [
        largestRatio(reach, Float64Array.from(top), Float64Array.from(bottom)),
        mostRatio(forms, top, bottom),
      ]) {
        expect(found).toBeGreaterThanOrEqual(best);
        expect(found - best).toBeLessThan(1e-9 * (1 + Math.abs(best)));
      }
    }
  });
});
