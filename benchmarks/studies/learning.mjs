// Makes docs/learning.md: what cards teach of the strength of cans, and how well faults are found, in the simulated
// world of test/simulator, whose physics is not the package's. Seeded; no data needed. Run from the root, with the
// number of jobs if another is wanted: node benchmarks/studies/learning.mjs
import { writeFileSync } from "node:fs";
import { quantile, table } from "./figures.mjs";
import { importSources } from "./importSources.mjs";
import { runJobs } from "./runJobs.mjs";

const [{ LEARNING_DEFAULTS }] = await importSources("src/planning/learning/learningOptions.ts");

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
const places = [
  "toner seen before",
  ...GROUPS.map((group) => `toner seen before, ${group}`),
  "toner new in the pot",
  "first card",
];
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

const page = `# What a card teaches

Made by \`benchmarks/studies/learning.mjs\`; seeded, so it comes out the same every time. [theory.md](theory.md#learning) has the formulas.

## What was done

${JOBS} jobs in the simulated world of \`test/simulator\`, a third each light, mid and dark: 200 g of a formula, a card, two toners more (mostly of those in the pot, by 5 to 30 %), a card, two more, a card. The world has another physics than the package: many streams of light in the film and Fresnel's boundary, white that crowds itself, film build that varies over a primer that shows through; a hand and a scale that err (0.03 g + 0.2 %, 0.1 g steps), an instrument that drifts, gloss that differs from card to card. The package knows the toners as \`characterise\` found them from drawdowns in that world; every can is then stronger or weaker, sd of ln strength 0.2. Constants of \`LEARNING_DEFAULTS\`: ${Object.entries(
  LEARNING_DEFAULTS,
)
  .map(([key, value]) => `${key} ${value}`)
  .join(
    ", ",
  )}. They were set on other jobs of this world, those of seeds 20000 to 20044 and 21000 to 21074; here they are 6000 and after.

## Strength

Error of ln strength against the pot as a whole, of toners that are at least 0.3 % of the pot: root mean square, median; by how many cards have shown the toner. Then the share of stated 90 % intervals that hold the truth (aim 87–93 %). With white that crowds itself and toners that are not quite as characterised there is no one true strength: what a pot makes of a toner is the same on all its cards and does not average out. \`tonerRatioSd\` and \`crowdingSd\` stand for it; without them the intervals shrink with every card and the truth falls out of them.

${table(["group", "before", ...counts.map((c) => `shown ${c}×`), ...counts.map((c) => `inside, shown ${c}×`)], strengthRows)}

## Faults

False alarms: sound cards that were doubted.

${table(
  ["cards", "doubted"],
  ["first card", "later cards", ...GROUPS, "all"].map((key) => [key, counted(all(`alarm ${key}`))]),
)}

Power: cards with one fault that were doubted, and how many of the doubted had the right fault named first (of a mis-pour: the right toner). *Seen before*: the toner was in the pot of an earlier card. Mis-pours of which the whole pour would not make so much are left out.

${table(["fault", "doubted", "named"], [...misPours, ...otherFaults])}

## What it shows, and what not

A mis-pour of a toner that no card has shown yet looks exactly like a can of another strength: with cans of sd 0.2 no test can tell ten per cent too much from ten per cent too strong, and the answer is to learn it as strength, which serves the next correction as well. That is why the first card and new toners are hardly ever doubted. Once a card has shown the can, the next pour of it is held to what the can is worth.

Grams and noise of this world are invented: take the order of things from here, not the second digit.
`;

writeFileSync(new URL("../../docs/learning.md", import.meta.url), page);
