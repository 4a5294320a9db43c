// What the nastiest jobs take: processor time of every verb with all its parts, and whether an answer broke a limit.
// Run: npm run build && node benchmarks/nasty.mjs [jobs of the first kind: 2000 unless given] [first seed: 1] [kind]
import { correct, isInputError } from "masstone";
import { characterise } from "masstone/characterisation";
import { learnStrengths, planHoldBack } from "masstone/planning";
import { nastierJob, nastyLadder, nastyLearning, nastyPlan } from "./nastierJobs.mjs";
import { breaches, nastyJob } from "./nastyJobs.mjs";

const JOBS = Number(process.argv[2] ?? 2000);
const FROM = Number(process.argv[3] ?? 1);
const ONLY = process.argv[4];

/** A kind: its jobs, what is asked, how many for one of the first, and the aims in seconds: 99.9 %, most. */
const corrected = (job) => correct(job, { forecast: true });
const KINDS = {
  correct: { jobOf: nastyJob, ask: corrected, share: 1, aims: [1, 5] },
  "correct, seen by colours and eyes, cards, flake": {
    jobOf: nastierJob,
    ask: corrected,
    share: 0.5,
    aims: [1, 5],
  },
  learn: { jobOf: nastyLearning, ask: (job) => learnStrengths(job), share: 0.1, aims: [5, 5] },
  plan: { jobOf: nastyPlan, ask: (job) => planHoldBack(job), share: 0.1, aims: [5, 5] },
  // A characterisation may take a minute or two unless told otherwise.
  characterise: {
    jobOf: nastyLadder,
    ask: (job) => characterise(job, () => {}, { maxWork: 2e9 }),
    share: 0.05,
    aims: [5, 5],
  },
};

for (let seed = 1; seed <= 30; seed++) {
  try {
    corrected(nastyJob(seed));
  } catch {}
}
const lines = [
  "| what | jobs | refused | cut off, and said | median | 99 % | 99.9 % | most | aims |",
  "|---|---|---|---|---|---|---|---|---|",
];
for (const [name, { jobOf, ask, share, aims }] of Object.entries(KINDS)) {
  if (ONLY !== undefined && !name.includes(ONLY)) continue;
  const counts = {};
  const count = (what) => {
    counts[what] = (counts[what] ?? 0) + 1;
  };
  const times = [];
  const jobs = Math.ceil(JOBS * share);
  let [refused, cut] = [0, 0];
  for (let seed = FROM; seed < FROM + jobs; seed++) {
    const job = jobOf(seed);
    const start = process.cpuUsage();
    let answer;
    try {
      answer = ask(job);
    } catch (error) {
      if (!isInputError(error)) throw new Error(`${name}, seed ${seed}`, { cause: error });
      refused++;
      count(`refused: ${error.code} at ${error.path.replaceAll(/\d+/g, "N")}`);
    }
    const { user, system } = process.cpuUsage(start);
    times.push({ seed, seconds: (user + system) / 1e6 });
    if (!answer) continue;
    count(answer.status ?? "answered");
    if (answer.warnings.some(({ code }) => code === "work-limit")) cut++;
    if (answer.additions === undefined) continue;
    for (const what of breaches(job, answer)) {
      count(`broken limit: ${what}`);
      console.log(`${name}, seed ${seed} breaks: ${what}`);
      process.exitCode = 1;
    }
  }
  times.sort((a, b) => a.seconds - b.seconds);
  const at = (part) => times[Math.min(jobs - 1, Math.ceil(part * jobs) - 1)].seconds;
  const cells = [0.5, 0.99, 0.999, 1].map((part) => `${at(part).toFixed(2)} s`);
  lines.push(`| ${[name, jobs, refused, cut, ...cells, `≤ ${aims[0]}, ≤ ${aims[1]} s`].join(" | ")} |`);
  const slowest = times.slice(-5).map(({ seed, seconds }) => `${seed}: ${seconds.toFixed(2)} s`);
  console.log(`${name}; slowest seeds: ${slowest.join("; ")}`);
  for (const [what, number] of Object.entries(counts).sort()) console.log(`  ${what}: ${number}`);
}
console.log(`\n${lines.join("\n")}`);
