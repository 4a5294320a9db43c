// What the doors for colour cost by looking at their arguments: each against the same function inside the house.
// Processor time, all functions in turn in one run. Run: npm run build && node benchmarks/doors.mjs
import * as door from "masstone/colorimetry";
import { importSources } from "./studies/importSources.mjs";

const ROUNDS = 15;
/** Processor time of one function in one round, in microseconds. */
const TIME = 40_000;

const [cie76, ciede2000, metric, lab, xyz] = await importSources(
  ...["cie76", "ciede2000", "deltaE00Metric", "lab", "xyz"].map((name) => `src/colorimetry/${name}.ts`),
);
const house = { ...cie76, ...ciede2000, ...metric, ...lab, ...xyz };

const grid = { start: 400, step: 10, count: 31 };
const weights = door.tristimulusWeights({ grid, illuminant: "D65", observer: "1964-10" });
const MANY = 256;
const labs = Array.from({ length: MANY }, (_, i) => [20 + (i % 61), (i % 37) - 18, (i % 53) - 26]);
const stimuli = labs.map((one) => door.xyzFromLab(one, weights.white));
const spectra = labs.map((_, i) =>
  Float64Array.from({ length: 31 }, (_, band) => 0.1 + ((i * band) % 83) / 100),
);

/** Argument lists by function; they come in turn, so that the engine cannot take one for a constant. */
const CASES = {
  cie76: labs.map((one, i) => [one, labs[(i + 7) % MANY]]),
  ciede2000: labs.map((one, i) => [one, labs[(i + 7) % MANY]]),
  deltaE00Metric: labs.map((one) => [one]),
  labFromXyz: stimuli.map((one) => [one, weights.white]),
  xyzFromLab: labs.map((one) => [one, weights.white]),
  xyzFromReflectance: spectra.map((one) => [one, weights]),
};

const contestants = Object.entries(CASES).flatMap(([name, lists]) =>
  [house, door].map((side) => ({ name, run: repeater(side[name], lists), best: Number.POSITIVE_INFINITY })),
);
for (let round = 0; round < ROUNDS; round++) {
  for (const one of contestants) one.best = Math.min(one.best, nanosecondsOf(one.run));
}

console.log("| function | inside the house | at the door | ratio |\n|---|---|---|---|");
for (let i = 0; i < contestants.length; i += 2) {
  const [inside, outside] = contestants.slice(i, i + 2);
  const ratio = (outside.best / inside.best).toFixed(2);
  console.log(`| ${inside.name} | ${inside.best.toFixed(0)} ns | ${outside.best.toFixed(0)} ns | ${ratio} |`);
}

/** A loop of its own for each function, or all would share what the engine learns of one. */
function repeater(of, lists) {
  const [a, b] = [lists.map(([first]) => first), lists.map(([, second]) => second)];
  return new Function(
    "of",
    "a",
    "b",
    "times",
    "for (let t = 0; t < times; t++) for (let i = 0; i < a.length; i++) of(a[i], b[i]);",
  ).bind(null, of, a, b);
}

function nanosecondsOf(run) {
  let times = 1;
  for (;;) {
    const start = process.cpuUsage();
    run(times);
    const { user, system } = process.cpuUsage(start);
    if (user + system >= TIME) return (1000 * (user + system)) / (times * MANY);
    times *= 2;
  }
}
