// What the nastiest jobs take: processor time of `correct` with all its parts, and whether an answer broke a limit.
// Run: npm run build && node benchmarks/nasty.mjs [jobs: 2000 unless given] [first seed: 1]
import { correct } from "masstone";
import { breaches, nastyJob } from "./nastyJobs.mjs";

const jobs = Number(process.argv[2] ?? 2000);
const from = Number(process.argv[3] ?? 1);
const OPTIONS = { forecast: true };

for (let seed = 1; seed <= 30; seed++) {
  try {
    correct(nastyJob(seed), OPTIONS);
  } catch {}
}
const times = [];
const counts = {};
const count = (what) => {
  counts[what] = (counts[what] ?? 0) + 1;
};
for (let seed = from; seed < from + jobs; seed++) {
  const job = nastyJob(seed);
  const start = process.cpuUsage();
  let answer;
  let refused;
  try {
    answer = correct(job, OPTIONS);
  } catch (error) {
    if (error.code === undefined) throw error;
    refused = error;
  }
  const { user, system } = process.cpuUsage(start);
  times.push({ seed, seconds: (user + system) / 1e6 });
  if (refused) {
    count(`refused: ${refused.code} at ${refused.path}`);
    continue;
  }
  count(answer.status);
  if (answer.warnings.some(({ code }) => code === "work-limit")) count("with something cut off, and said");
  for (const what of breaches(job, answer)) {
    count(`broken limit: ${what}`);
    console.log(`seed ${seed} breaks: ${what}`);
    process.exitCode = 1;
  }
}
times.sort((a, b) => a.seconds - b.seconds);
const at = (share) =>
  times[Math.min(times.length - 1, Math.ceil(share * times.length) - 1)].seconds.toFixed(3);
console.log(`${jobs} nasty jobs, seconds of processor time each`);
console.log(`median ${at(0.5)}, 99 % ${at(0.99)}, 99.9 % ${at(0.999)} (aim ≤ 1), most ${at(1)} (aim ≤ 5)`);
console.log(
  times
    .slice(-5)
    .map(({ seed, seconds }) => `seed ${seed}: ${seconds.toFixed(2)}`)
    .join("; "),
);
for (const [what, times] of Object.entries(counts).sort()) console.log(`${what}: ${times}`);
