// Makes "learning" in docs/evidence.md: what cards teach of the strength of cans, and how well faults are found, in the simulated
// world of test/simulator, whose physics is not the package's. Seeded; no data needed. Run from the root, with the
// number of jobs if another is wanted: node benchmarks/studies/learning.mjs
import { quantile, table } from "./figures.mjs";
import { runJobs } from "./runJobs.mjs";
import { writeSection } from "./writeSection.mjs";

const JOBS = Number(process.argv[2] ?? 240);
/** Of the jobs, such a share is done with mis-pours, and such a share with every fault. */
const MIS_POURED = 0.66;
const EVERY_FAULT = 0.18;
const FIRST_SEED = 6000;
const GROUPS = ["light", "mid", "dark"];
const CARDS = 3;
const EFFECTS = [0.5, 1];

const jobs = Array.from({ length: JOBS }, (_, i) => ({
  seed: FIRST_SEED + i,
  faulty: i < EVERY_FAULT * JOBS ? "every" : i < MIS_POURED * JOBS ? "mis-poured" : "no",
}));
const gathered = new Map();
for (const found of await runJobs("learningWorker.mjs", jobs)) {
  for (const [key, value] of found) gathered.set(key, [...(gathered.get(key) ?? []), value]);
}
const all = (key) => gathered.get(key) ?? [];
const mean = (values) => values.reduce((sum, value) => sum + value, 0) / values.length;
const rms = (values) => Math.sqrt(mean(values.map((value) => value * value)));

const percent = (values) => (values.length === 0 ? "–" : `${(100 * mean(values)).toFixed(0)} %`);
const counted = (values) => `${percent(values)} of ${values.length}`;
const counts = Array.from({ length: CARDS }, (_, c) => c + 1);
const strengthRows = [...GROUPS, "all"].map((group) => [
  group,
  rms(all(`before ${group}`)).toFixed(3),
  ...counts.map((count) => {
    const errors = all(`error ${group} ${count}`);
    return `${rms(errors).toFixed(3)}, ${quantile(errors.map(Math.abs), 0.5).toFixed(3)}`;
  }),
  ...counts.map((count) => counted(all(`inside ${group} ${count}`))),
]);
const places = ["toner seen before", "toner new in the pot", "first card"];
const misPours = places.flatMap((place) =>
  EFFECTS.map((effect) => {
    const key = `mis-pour ${effect} ${place}`;
    return [
      `mis-pour of ${effect} ΔE₀₀, ${place}`,
      counted(all(`caught ${key}`)),
      counted(all(`named ${key}`)),
    ];
  }),
);
const otherFaults = [
  "wrong toner",
  "card of the pot before",
  "one band 0.02 too high",
  "all bands 0.01 too high",
].map((kind) => [kind, counted(all(`caught ${kind}`)), counted(all(`named ${kind}`))]);

const STRENGTH_HEAD = [
  "group",
  "before",
  ...counts.map((c) => `shown ${c}×`),
  ...counts.map((c) => `inside, shown ${c}×`),
];

writeSection(
  "learning",
  `## Learning from cards

${JOBS} jobs of three cards in the world of [whole jobs](#whole-jobs). Error of ln strength (root mean square, median) by how many cards have shown the toner, and the share of 90 % intervals that hold the truth (aim 87–93 %):

${table(STRENGTH_HEAD, strengthRows.slice(-1))}

Sound cards doubted: ${counted(all("alarm all"))}. Cards with one fault that were doubted, and of these the right fault named first:

${table(["fault", "doubted", "named"], [...misPours, ...otherFaults])}

A mis-pour of a toner that no card has shown looks like a can of another strength. It is learnt as strength, which serves the next correction as well.`,
  `# Learning from cards: by group

${table(STRENGTH_HEAD, strengthRows.slice(0, -1))}`,
);
