// Gives the objective of `correct` to general optimisers: SciPy's least_squares, lsq_linear and milp (python3-scipy of Debian;
// PYTHON names another interpreter) and ml-levenberg-marquardt. Prints a table; README.md says how to read it.
// Run: npm run build && node benchmarks/optimisers.mjs [jobs]
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { anchorToCard, correct, createEvaluation, createForwardModel, evaluate } from "masstone";
import { ciede2000, labFromXyz, xyzFromReflectance } from "masstone/colorimetry";
import { levenbergMarquardt } from "ml-levenberg-marquardt";
import { expectClose } from "./expectClose.mjs";
import { ONE_ANGLE, seededJob } from "./inventedPaint.mjs";
import { quantile, table } from "./studies/figures.mjs";

const JOBS = Number(process.argv[2] ?? 60);
const PYTHON = process.env.PYTHON ?? "/usr/bin/python3";
const SPECTRAL = 1e-4;
const AGREE = 1e-9;
/** Every pour that helps is taken, as an optimiser takes it. */
const LIMITS = { pourWorthDeltaE00: 0 };
const BARE = { alternatives: false, wayOut: false };

/** Jobs that ask for something to be poured, as numbers that any optimiser can take. */
const jobs = [];
for (let seed = 1; jobs.length < JOBS; seed++) {
  const drawn = seededJob(seed);
  const job = { ...drawn, limits: { ...drawn.limits, ...LIMITS } };
  if (correct(job, BARE).status !== "good-enough") jobs.push(prepare(job));
}

function prepare(job) {
  const { toners, viewing, pot, card, targets, limits } = job;
  const start = Float64Array.from(toners.toners, ({ id }) => pot[id] ?? 0);
  const read = Float64Array.from(card.readings[0].reflectance);
  const target = targets[0].readings[0].reflectance;
  const model = anchorToCard(createForwardModel(toners, viewing, ONE_ANGLE), start, read);
  const all = model.lights.reduce((sum, { weight }) => sum + weight, 0);
  const lights = model.lights.map(({ weight, tristimulus }) => ({
    share: weight / all,
    tristimulus,
    lab: labFromXyz(xyzFromReflectance(target, tristimulus), tristimulus.white),
  }));
  const at = createEvaluation(model);
  /** Three residuals for each light, of which the squares add up to w·ΔE00², then the bands. */
  const residuals = (added) => {
    evaluate(
      model,
      start.map((grams, j) => grams + added[j]),
      at,
    );
    const ofColour = lights.flatMap(({ share, lab }, light) => {
      const now = Array.from(at.lab.subarray(3 * light, 3 * light + 3));
      const step = now.map((value, axis) => value - lab[axis]);
      const length = Math.hypot(...step);
      const size = length > 0 ? ciede2000(lab, now) / length : 0;
      return step.map((value) => Math.sqrt(share) * size * value);
    });
    const scale = 100 * Math.sqrt(SPECTRAL / target.length);
    return [...ofColour, ...target.map((r, b) => scale * (at.reflectance[b] - r))];
  };
  const grams = start.reduce((sum, amount) => sum + amount, 0);
  const room = limits.potMaxGrams - grams;
  const score = (added) => Math.hypot(...residuals(added));
  return { job, model, lights, start, target, room, residuals, score };
}

/** The less of two, as for the others. */
function clock(run) {
  let least = Number.POSITIVE_INFINITY;
  let value;
  for (let i = 0; i < 2; i++) {
    const start = performance.now();
    value = run();
    least = Math.min(least, performance.now() - start);
  }
  return { value, milliseconds: least };
}

function ours({ job }) {
  const { value, milliseconds } = clock(() => correct(job, BARE));
  const grams = Object.fromEntries(
    (value.byPours.at(-1)?.additions ?? []).map((one) => [one.toner, one.grams]),
  );
  return { added: job.toners.toners.map(({ id }) => grams[id] ?? 0), milliseconds };
}

function byMl({ start, room, residuals }) {
  const count = residuals(start.map(() => 0)).length;
  const x = Array.from({ length: count }, (_, i) => i);
  const { value, milliseconds } = clock(() =>
    levenbergMarquardt(
      { x, y: x.map(() => 0) },
      (added) => {
        const now = residuals(added);
        return (i) => now[i];
      },
      {
        initialValues: Array.from(start, () => 0.01 * room),
        minValues: Array.from(start, () => 0),
        maxValues: Array.from(start, () => room),
        gradientDifference: 1e-4 * room,
        damping: 1e-2,
        maxIterations: 100,
        errorTolerance: 1e-9,
      },
    ),
  );
  return { added: value.parameterValues, milliseconds };
}

function bySciPy() {
  const records = jobs.map(({ job, model, lights, start, target, room }, i) => {
    const { size, k, s } = model.coefficients;
    const rows = (packed) =>
      Array.from(start, (_, j) => Array.from(packed.subarray(j * size, (j + 1) * size)));
    const { offset, gain, k2 } = model.surfaces[0];
    return {
      k: rows(k),
      s: rows(s),
      pot: Array.from(start),
      ...Object.fromEntries(Object.entries(model.anchor).map(([key, values]) => [key, Array.from(values)])),
      surface: [offset, gain, k2],
      weights: lights.map(({ tristimulus: { x, y, z } }) => [x, y, z].map((weights) => Array.from(weights))),
      white: lights.map(({ tristimulus }) => Array.from(tristimulus.white)),
      lab: lights.map(({ lab }) => lab),
      share: lights.map(({ share }) => share),
      target,
      room,
      step: job.limits.scaleStepGrams,
      pours: job.limits.maxPours,
      checks: checksOf(start, i),
    };
  });
  const script = fileURLToPath(new URL("optimisers.py", import.meta.url));
  const { status, stdout, stderr } = spawnSync(PYTHON, [script], {
    input: JSON.stringify(records),
    encoding: "utf8",
    maxBuffer: 1e8,
    // One core, as the others have.
    env: { ...process.env, OPENBLAS_NUM_THREADS: "1" },
  });
  if (status !== 0) {
    console.warn(
      `SciPy is left out: ${PYTHON} with numpy and scipy did not run (${stderr?.trim().split("\n").at(-1)})`,
    );
    return undefined;
  }
  const answers = JSON.parse(stdout);
  // Arithmetic that gives other numbers is no comparison.
  answers.forEach(({ checks }, i) => {
    const { start, score } = jobs[i];
    expectClose("the objective in numpy", checks, checksOf(start, i).map(score), AGREE);
  });
  return answers;
}

/** Nothing, and two mixes of everything. */
function checksOf(start, i) {
  const mix = (by) => Array.from(start, (_, j) => ((i + 3) * (j + 1) * by) % 7);
  return [mix(0), mix(1.3), mix(2.9)];
}

for (let i = 0; i < 100; i++) correct(jobs[i % jobs.length].job, BARE);
const own = jobs.map(ours);
const ml = jobs.map(byMl);
const scipy = bySciPy();

const whole = (added) => added.map((grams) => Math.round(grams / 0.1) * 0.1);
const every = (answers) => answers.map(({ added, milliseconds }) => ({ added, milliseconds }));
const contestants = [
  ["masstone, at most 4 pours, whole steps", own],
  ...(scipy
    ? [
        [
          "SciPy, all 15 toners, any amounts",
          scipy.map((one) => ({ added: one.every, milliseconds: one.everyMs })),
        ],
        [
          "SciPy, all 15 toners, rounded",
          scipy.map((one) => ({ added: whole(one.every), milliseconds: one.everyMs })),
        ],
        [
          "SciPy, the 4 largest, again, rounded",
          scipy.map((one) => ({ added: one.few, milliseconds: one.fewMs })),
        ],
        [
          "SciPy, lsq_linear again and again, rounded",
          scipy.map((one) => ({ added: whole(one.linearly), milliseconds: one.linearlyMs })),
        ],
        [
          "SciPy, then milp, at most 4 pours, whole steps",
          scipy.map((one) => ({ added: one.mixed, milliseconds: one.mixedMs })),
        ],
      ]
    : []),
  ["ml-levenberg-marquardt, all 15 toners, any amounts", every(ml)],
  [
    "ml-levenberg-marquardt, all 15 toners, rounded",
    ml.map(({ added, milliseconds }) => ({ added: whole(added), milliseconds })),
  ],
];

const pours = (added) => added.filter((grams) => grams >= 0.05).length;
const gramsOf = (added) => added.reduce((sum, grams) => sum + grams, 0);
const scores = (answers) => answers.map(({ added }, i) => jobs[i].score(added));
const ownScores = scores(own);
const ratioOf = (values, others) =>
  quantile(
    values.map((value, i) => value / others[i]),
    0.5,
  );
const rows = contestants.map(([name, answers]) => {
  const reached = scores(answers);
  const times = answers.map(({ milliseconds }) => milliseconds);
  return [
    name,
    quantile(
      answers.map(({ added }) => pours(added)),
      0.5,
    ),
    quantile(reached, 0.5).toFixed(3),
    quantile(reached, 0.9).toFixed(3),
    ratioOf(reached, ownScores).toFixed(2),
    `${reached.filter((value, i) => value < ownScores[i] - 1e-9).length} of ${jobs.length}`,
    answers.filter(({ added }, i) => gramsOf(added) > jobs[i].room + 1e-6).length,
    quantile(times, 0.5).toFixed(1),
    ratioOf(
      times,
      own.map(({ milliseconds }) => milliseconds),
    ).toPrecision(2),
  ];
});
console.log(
  table(
    [
      "who",
      "pours, median",
      "score, median",
      "score, 90 %",
      "score ÷ ours, median",
      "better than ours",
      "over the cup",
      "ms, median",
      "time ÷ ours, median",
    ],
    rows,
  ),
);
