// Times the characterisation of a whole toner range and its linear stage, and prints a table.
// Run: npm run build && node benchmarks/characterise.mjs (SciPy is compared with where python3 has it)
import { spawnSync } from "node:child_process";
import { pathToFileURL } from "node:url";
import { expectClose } from "./expectClose.mjs";
import { importSources } from "./studies/importSources.mjs";

const GEOMETRY = "d:8 specular included";
const GRID = { start: 400, step: 10, count: 31 };
const TONERS = 40;
const SAMPLES = 400;
const NOISE = 0.002;
const AIM_SECONDS = 5;
const ROUNDS = 3;

/** One row: what was done, seconds of it, and those of a baseline where there is one. */
export async function characteriseRows() {
  const [{ characterise }, { nnlsOfSparseRows }, { createRandom }, { film, overBacking }, saunderson] =
    await importSources(
      "src/characterisation/characterise.ts",
      "src/numeric/leastSquares/nnlsOfSparseRows.ts",
      "src/numeric/probability/random.ts",
      "src/optics/film.ts",
      "src/surface/saunderson.ts",
    );
  const job = inventJob(createRandom(1), { film, overBacking, ...saunderson });
  const times = Array.from({ length: ROUNDS }, () => timeStages(characterise, job));
  const best = (key) => Math.min(...times.map((time) => time[key]));
  return [
    {
      name: `joint fit, ${TONERS} toners × ${GRID.count} bands × ${SAMPLES} samples over black and white`,
      seconds: best("fit"),
      aim: AIM_SECONDS,
    },
    { name: "the same with covariance, rank, modes and colour differences", seconds: best("all") },
    ...compareNnls(nnlsOfSparseRows, createRandom(2)),
  ];
}

function timeStages(characterise, job) {
  const start = performance.now();
  let fitted = start;
  const { stopReason } = characterise(job, () => {
    fitted = performance.now();
  });
  if (stopReason !== "cost" && stopReason !== "step") throw new Error(`the fit stopped: ${stopReason}`);
  return { fit: (fitted - start) / 1000, all: (performance.now() - start) / 1000 };
}

/** Masstones, tints and threefold mixes of invented toners: films of unequal thickness, noisy readings. */
function inventJob(random, { film, overBacking, measuredReflectance, internalReflectance, surfaceTerms }) {
  const surface = { geometry: GEOMETRY, k1: 0.04, k2: 0.6 };
  const terms = surfaceTerms(surface);
  const nm = Array.from({ length: GRID.count }, (_, band) => GRID.start + band * GRID.step);
  const paints = Array.from({ length: TONERS }, (_, j) => {
    const centre = 420 + 260 * random.uniform();
    const width = 30 + 60 * random.uniform();
    const height = j === 0 ? 0.02 : 0.5 + 5 * random.uniform();
    const scattering = j === 0 ? 8 : 0.3 + 3 * random.uniform();
    return {
      k: nm.map((at) => 0.02 + height * Math.exp(-(((at - centre) / width) ** 2))),
      s: nm.map((at) => scattering * (1 - (at - 400) / 1500)),
    };
  });
  const shades = [0, 1, 0.5, 0.2, 0.1, 0.05];
  const recipeOf = (i) => {
    const j = 1 + (i % (TONERS - 1));
    const step = Math.floor(i / (TONERS - 1));
    if (i === SAMPLES - 1) return [[0, 1]];
    if (step === 0) return [[j, 1]];
    const tint = [
      [0, 1],
      [j, shades[step] ?? 0.3],
    ];
    return step < shades.length ? tint : [...tint, [1 + ((j + step) % (TONERS - 1)), 0.2]];
  };
  const samples = Array.from({ length: SAMPLES }, (_, i) => {
    const recipe = recipeOf(i);
    const total = recipe.reduce((sum, [, mass]) => sum + mass, 0);
    const thickness = Math.exp(0.15 * random.normal());
    const mixed = (what, band) =>
      recipe.reduce((sum, [j, mass]) => sum + (mass / total) * paints[j][what][band], 0);
    const readings = [0.05, 0.85].map((backing) => ({
      geometry: GEOMETRY,
      grid: GRID,
      backing: new Array(GRID.count).fill(backing),
      reflectance: nm.map((_, band) => {
        const layer = film(mixed("k", band), mixed("s", band), thickness);
        const inside = overBacking(layer, internalReflectance(backing, terms));
        return Math.max(0, measuredReflectance(inside, terms) + NOISE * random.normal());
      }),
    }));
    return {
      name: `s${i}`,
      recipe: Object.fromEntries(recipe.map(([j, mass]) => [`t${j}`, mass])),
      readings,
    };
  });
  return {
    grid: GRID,
    surfaces: [surface],
    toners: paints.map((_, j) => ({ id: `t${j}` })),
    samples,
    options: { reflectanceSd: { floor: NOISE, relative: 0 } },
  };
}

const PYTHON = `
import json, sys, time
import numpy, scipy.optimize
problems = [(numpy.array(a).reshape(-1, ${TONERS}), numpy.array(b)) for a, b in json.load(sys.stdin)]
best = float("inf")
for _ in range(${ROUNDS}):
    start = time.perf_counter()
    found = [scipy.optimize.nnls(a, b)[0] for a, b in problems]
    best = min(best, time.perf_counter() - start)
json.dump({"seconds": best, "found": [x.tolist() for x in found]}, sys.stdout)
`;

/** One problem a band, of a row for every sample, each with two or three toners in it. */
function compareNnls(nnls, random) {
  const problems = Array.from({ length: GRID.count }, () => {
    const truth = Array.from({ length: TONERS }, () => Math.max(0, random.normal()));
    const a = new Float64Array(SAMPLES * TONERS);
    const b = new Float64Array(SAMPLES);
    for (let i = 0; i < SAMPLES; i++) {
      for (const j of [0, random.integer(TONERS), random.integer(TONERS)])
        a[i * TONERS + j] += random.uniform();
      for (let j = 0; j < TONERS; j++) b[i] += a[i * TONERS + j] * truth[j];
      b[i] += 0.05 * random.normal();
    }
    return [a, b];
  });
  const solve = () => problems.map(([a, b]) => nnls(a, b, SAMPLES, TONERS).x);
  const found = solve();
  let seconds = Number.POSITIVE_INFINITY;
  for (let round = 0; round < ROUNDS; round++) {
    const start = performance.now();
    solve();
    seconds = Math.min(seconds, (performance.now() - start) / 1000);
  }
  const name = `NNLS, ${GRID.count} problems of ${SAMPLES} × ${TONERS}`;
  const python = spawnSync("python3", ["-c", PYTHON], {
    input: JSON.stringify(problems.map(([a, b]) => [Array.from(a), Array.from(b)])),
    maxBuffer: 1e9,
    encoding: "utf8",
  });
  if (python.status !== 0) return [{ name, seconds, baseline: "SciPy is not there" }];
  const scipy = JSON.parse(python.stdout);
  found.forEach((x, i) => {
    expectClose(`NNLS ${i}`, x, scipy.found[i], 1e-8);
  });
  return [{ name, seconds, baseline: "scipy.optimize.nnls", baselineSeconds: scipy.seconds }];
}

function print(rows) {
  for (const { name, seconds, aim, baseline, baselineSeconds } of rows) {
    const target = aim === undefined ? "" : ` (aim ≤ ${aim} s: ${seconds <= aim ? "met" : "missed"})`;
    const ratio =
      baselineSeconds === undefined
        ? (baseline ?? "")
        : `${baseline} ${baselineSeconds.toFixed(3)} s, ratio ${(baselineSeconds / seconds).toPrecision(3)} ×`;
    console.log(`${name}: ${seconds.toFixed(3)} s${target} ${ratio}`.trim());
  }
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href)
  print(await characteriseRows());
