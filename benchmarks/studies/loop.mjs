// Makes docs/loop.md and docs/loop.svg: whole jobs from the first pot to the last card, in a world of other physics
// than the package's (test/simulator). Seeded; no data needed. Takes some minutes.
// Run from the root: node benchmarks/studies/loop.mjs [jobs]
import { writeFileSync } from "node:fs";
import { spread, table } from "./figures.mjs";
import { importSources } from "./importSources.mjs";
import { sharePlot } from "./loopPlot.mjs";
import { runJobs } from "./runJobs.mjs";

const [running, ways] = await importSources("test/loop/runJob.ts", "test/loop/arms.ts");
const { afterCorrections } = running;

const JOBS = Number(process.argv[2] ?? 510);
const FEWER_JOBS = 3 * Math.ceil(JOBS / 16);
const ORACLE_JOBS = 3 * Math.ceil(JOBS / 51);
/** Sizes and ways were looked at on other jobs: 20001, 30001 and on. */
const FIRST_SEED = 50001;
const LIMIT = 0.5;
const LOST = 1;
/** These are run over all jobs, the steps between them over fewer. */
const COMPARED = ["unanchored", "lastCard", "threeQuarters", "full"];
const GROUPS = ["light", "mid", "dark"];
const SILENT = { noise: 0, gun: 0, pouring: 0 };

const jobsOf = ({ arm, options, jobs }) =>
  Array.from({ length: jobs }, (_, i) => ({ arm, options, seed: FIRST_SEED + i }));

const percent = (count, of) => `${((100 * count) / of).toFixed(1)} %`;
const within = (outcomes, corrections) =>
  percent(outcomes.filter((one) => afterCorrections(one, corrections) <= LIMIT).length, outcomes.length);
const mean = (values) => values.reduce((sum, value) => sum + value, 0) / values.length;
const ending = ({ deltaE00 }) => deltaE00[deltaE00.length - 1];
const wasted = ({ potGrams, wantedGrams }) => Math.max(0, potGrams - wantedGrams);
const left = (outcomes, corrections) => spread(outcomes.map((one) => afterCorrections(one, corrections)));

const summary = (name, outcomes) => [
  name,
  within(outcomes, 1),
  within(outcomes, 2),
  left(outcomes, 1),
  left(outcomes, 2),
  mean(outcomes.map(({ cards }) => cards)).toFixed(2),
  String(outcomes.filter((one) => ending(one) > LIMIT).length),
  String(outcomes.filter((one) => ending(one) > LOST).length),
  mean(outcomes.map(wasted)).toFixed(0),
];
const SUMMARY_HEAD = [
  "",
  "≤ 0.5 after one",
  "≤ 0.5 after two",
  "ΔE₀₀ after one",
  "ΔE₀₀ after two",
  "cards",
  "> 0.5 at the end",
  "lost",
  "g wasted",
];

/** The full loop with errors of the world taken away. */
const LIMITS = [
  { name: "full loop", arm: "full", options: {} },
  { name: "no error of instrument, gun, scale and hand", arm: "full", options: SILENT },
  { name: "cans as characterised", arm: "full", options: { strengthSd: 0 } },
  { name: "both", arm: "full", options: { ...SILENT, strengthSd: 0 } },
  { name: "oracle", arm: "oracle", options: {} },
];

const { ARMS } = ways;
const asked = [
  ...Object.entries(ARMS).map(([arm, { name, about }]) => ({
    arm,
    name,
    about,
    options: {},
    jobs: COMPARED.includes(arm) ? JOBS : FEWER_JOBS,
  })),
  ...LIMITS.map((limit) => ({ ...limit, jobs: limit.arm === "oracle" ? ORACLE_JOBS : FEWER_JOBS })),
];
const done = await runJobs("loopWorker.mjs", asked.flatMap(jobsOf));
const answered = asked.map((one) => ({ ...one, outcomes: done.splice(0, one.jobs) }));
const results = answered.slice(0, Object.keys(ARMS).length);
const limitRows = answered
  .slice(results.length)
  .map(({ name, outcomes }) => summary(`${name} (${outcomes.length} jobs)`, outcomes));
const compared = results.filter(({ arm }) => COMPARED.includes(arm));
const ofBest = results.find(({ arm }) => arm === "full").outcomes;

const groupRows = compared.flatMap(({ name, outcomes }) =>
  GROUPS.map((group) =>
    summary(
      `${name}: ${group}`,
      outcomes.filter((one) => one.group === group),
    ),
  ),
);

const floors = [...GROUPS, undefined].map((group) => {
  const some = ofBest.filter((one) => group === undefined || one.group === group);
  return [
    group ?? "all",
    String(some.length),
    spread(some.map(({ fadeDeltaE00 }) => fadeDeltaE00)),
    spread(some.map(({ deltaE00 }) => deltaE00[0])),
    spread(some.map(({ readingDeltaE00 }) => readingDeltaE00.panel)),
    spread(some.map(({ readingDeltaE00 }) => readingDeltaE00.card)),
  ];
});

writeFileSync(
  new URL("../../docs/loop.svg", import.meta.url),
  sharePlot(
    {
      title: "How many jobs are how near after one correction, and after two",
      description: compared
        .map(
          ({ name, outcomes }) =>
            `${name}: ${within(outcomes, 1)} within ${LIMIT} after one, ${within(outcomes, 2)} after two.`,
        )
        .join(" "),
    },
    [1, 2].map((corrections) => ({
      title: `% of jobs after ${corrections === 1 ? "one correction" : "two corrections"}`,
      series: compared.map(({ name, outcomes }) => ({
        name,
        values: outcomes.map((one) => afterCorrections(one, corrections)),
      })),
    })),
    LIMIT,
  ),
);

const reached = (corrections, goal) => {
  const share = ofBest.filter((one) => afterCorrections(one, corrections) <= LIMIT).length / ofBest.length;
  return `${(100 * share).toFixed(1)} % (goal ${goal} %: ${100 * share >= goal ? "met" : "**missed**"})`;
};
const missedBy = GROUPS.map((group) => {
  const some = ofBest.filter((one) => one.group === group);
  return `${group} ${within(some, 1)} and ${within(some, 2)}`;
}).join(", ");

const page = `# Whole jobs, from the first pot to the last card

How near a job comes to its panel, card by card, in a world that does not obey this package's equations. Made by \`benchmarks/studies/loop.mjs\`; seeded, so it comes out the same every time. Sizes and ways of working were looked at on other jobs (seeds 20001, 30001 and on) than those shown here (${FIRST_SEED} and on). All ways use shipped verbs alone.

**In short**: within ${LIMIT} ΔE₀₀ of the panel, truly and not only as read, are ${reached(1, 97.5)} of ${JOBS} jobs after one correction and ${reached(2, 99.8)} after two; by group ${missedBy}. Lost: ${ofBest.filter((one) => ending(one) > LOST).length}.

![Shares of jobs by what is left](loop.svg)

## The world

\`test/simulator\` is paint by radiative transfer, not by Kubelka and Munk: eight streams of light in each hemisphere (doubling; Fresnel's boundary acts on every stream by itself, so there is no constant k₂), Henyey–Greenstein scattering, a film of finite depth over a grey primer, and white that scatters up to 25 % less per gram where it is crowded. It is held to van de Hulst's slab, Chandrasekhar's H function, Giovanelli's reflectance, Beer's law, reciprocity and conservation by tests. The nine toners and five let-downs are invented. masstone knows them only through \`characterise\`, from noisy drawdowns over black and white; the fit's own residuals are about 0.3 ΔE₀₀ in the median and 2 at worst.

Each job draws, from its seed:

- a formula (a third each *light*, *mid*, *dark*), ${running.WANTED_GRAMS} g wanted;
- a panel: the most fugitive toner has lost up to 30 % of its absorption, others less, by shares of their own; some yellowing; a film build of its own;
- cans stronger or weaker than characterised: sd of ln strength 0.2, each by itself;
- for every card its film build (sd of ln 0.1), sheen (0.0006) and tone (0.25 %); for every reading noise (0.0003 and 0.06 %), drift (0.1 %) and tilt (0.05 %) of the instrument; for every pour the hand (0.03 g + 0.2 %) and a scale of 0.1 g. masstone is told what the scale shows.

The noise is invented, of the size that is usual in the trade (no source). ΔE₀₀, D65 and 10°: median, 90 %, largest.

${table(["group", "jobs", "fade", "first pot to panel", "panel as read to panel", "first card as read to its pot"], floors)}

## Ways of working

A card counts as good enough when it *reads* within ${ways.GOOD_ENOUGH} of the panel; the rest up to ${LIMIT} is kept for noise. A cup holds twice what is wanted. With a correction, or when there is none to make, a pot that holds less than is wanted is filled up in the proportions that it then has (\`topUp\`), whichever way it is worked: no card is sprayed for that, and what weighing it does to the colour counts. A job ends when its way has nothing to add, or after ${running.MOST_CORRECTIONS} corrections. *After two* holds the first correction's result where no second was asked for. *Lost*: the last pot is over ${LOST} ΔE₀₀ off, too much even for a blend. *g wasted*: mean of what the last pot holds beyond what was wanted.

${table(
  SUMMARY_HEAD,
  compared.map(({ name, outcomes }) => summary(name, outcomes)),
)}

${Object.values(ARMS)
  .map(({ name, about }) => `- *${name}*: ${about}`)
  .join("\n")}

${table(SUMMARY_HEAD, groupRows)}

## Steps between, and other beliefs

The same ways and the steps between them, over the first ${FEWER_JOBS} jobs: few, so differences of some per cent are chance.

${table(
  SUMMARY_HEAD,
  results.map(({ name, outcomes }) => summary(name, outcomes.slice(0, FEWER_JOBS))),
)}

Toners that are not in the pot have shown their strength on no card: their pours cost their doubt, so \`correct\` stays with the pot while that comes near enough, without a rule. Version 0.1.0 reached 95.7 % and 99.6 % with 2.26 cards and 6 g too much by a rule in the tests, 73.5 % and 97.6 % by its verbs alone (other jobs of this world).

## What it hangs on

The full loop with errors of the world taken away, and an oracle that knows the physics, the cans and what was truly poured, and solves for the panel as read.

${table(SUMMARY_HEAD, limitRows)}

What *both* leaves belongs to the simpler physics of the model where the first correction is large; the rest of what is missed is missed for cans whose strength one card does not yet tell well enough. So the first pot should be near the panel, and the first correction small. A pot that holds back of the strong toners alone, as \`planHoldBack\` once did, keeps every panel within reach and starts far from it: of the 48 jobs from 20001 on 85 % were within ${LIMIT} after one correction, and the pots ended 32 g short of the paint wanted. Held back alike of all toners, in the proportions of the panel as it looks today, the same promise costs size instead of colour: 96 % of the same jobs. How large the pot is matters little for the cards (96 jobs from 20101 on: 2.30 cards at the 95 % that are promised, 2.23 at 50 %) and much for the paint (8 g too much against 26 g).

## Elsewhere, in the same world

How often the next card lies where it was said to lie, by group: [belief.md](belief.md). Whether every panel stays within reach of a first pot as promised is tried in \`test/planning\`.

## What this does not show

Solid colours, one panel, one geometry, films that nearly hide. The world is invented; how strongly white crowds, how much a gun varies and what fades were guessed. Pours are never mistaken here and cards never misread. The order of the ways is what to take from here; the figures belong to this world.
`;

writeFileSync(new URL("../../docs/loop.md", import.meta.url), page);
