// Makes "certificate" in docs/evidence.md: certificates of random jobs, held to random additions and to the checker. Jobs and trials are
// those of test/certificate; the solver is the built package. With MASSTONE_OPEN_DATA set, half of the jobs are
// on measured K and S. JOBS and ADDITIONS make a shorter run.
// Run from the root: npm run build && node benchmarks/studies/certificate.mjs
import { readFileSync } from "node:fs";
import { correct } from "masstone";
import { certify, verifyCertificate } from "masstone/certificate";
import { readToners } from "masstone/formats";
import { quantile, table } from "./figures.mjs";
import { importSources } from "./importSources.mjs";
import { writeSection } from "./writeSection.mjs";

const JOBS = Number(process.env.JOBS ?? 240);
const ADDITIONS = Number(process.env.ADDITIONS ?? 100_000);

const [{ randomJob }, { leastMeasures }, openData, { cropTonerSet }] = await importSources(
  "test/certificate/randomJobs.ts",
  "test/certificate/leastMeasures.ts",
  "test/real-paint/openData.ts",
  "src/toners/cropTonerSet.ts",
);
const folder = process.env[openData.FOLDER_VARIABLE];
const missing = openData.whatIsMissing(folder);
const sets = [
  readToners(readFileSync(new URL("../../examples/horsebox/toners.json", import.meta.url), "utf8")),
];
if (missing) console.error(`invented toners alone: ${missing}`);
else sets.push(cropTonerSet(openData.readOpenData(folder).toners, { start: 400, step: 10, count: 31 }));

/** Milliseconds of processor time: other work on the machine falls out. */
function timed(act) {
  const start = process.cpuUsage();
  const value = act();
  const { user, system } = process.cpuUsage(start);
  return { value, ms: (user + system) / 1000 };
}

const PLAINLY = { wayOut: false };
const warm = randomJob(sets[0], 0).job;
for (let i = 0; i < 20; i++) certify(warm, correct(warm, PLAINLY));

const runs = [];
for (let seed = 0; seed < JOBS; seed++) {
  const { kind, job, added } = randomJob(sets[seed % sets.length], seed);
  const { value: correction, ms: corrected } = timed(() => correct(job, PLAINLY));
  const { value: certificate, ms: certified } = timed(() => certify(job, correction));
  if (certificate.verdict === "undetermined") continue;
  const check = timed(() => verifyCertificate(job, correction, certificate));
  const trial =
    certificate.method === "none" ? undefined : leastMeasures(job, { additions: ADDITIONS, seed });
  runs.push({
    seed,
    kind,
    certificate,
    isMade: added !== undefined,
    isValid: check.value.isValid,
    trial,
    ms: { corrected, certified, check: check.ms },
    bytes: JSON.stringify(certificate).length,
  });
  if (seed % 20 === 19) console.error(`${seed + 1} jobs`);
}

const isProved = ({ certificate }) => certificate.verdict === "proved-out-of-reach";
const isOut = ({ certificate }) => certificate.verdict !== "matched";
const out = runs.filter(isOut);
const tried = runs.filter(({ trial }) => trial);
const violated = tried.filter(
  ({ certificate, trial }) =>
    trial.weighted < certificate.weightedDeltaE00.atLeast || trial.worst < certificate.worstOfAllowed.atLeast,
);
const falsely = runs.filter(
  ({ isMade, certificate }) =>
    isMade && (isProved({ certificate }) || certificate.weightedDeltaE00.atLeast > 1e-9),
);
const refused = runs.filter(({ isValid }) => !isValid);

const share = (some, all) => (all.length === 0 ? "–" : `${some.length} of ${all.length}`);
const reaches = [
  ["up to 1.25", 1, 1.25],
  ["1.25–2", 1.25, 2],
  ["2–5", 2, 5],
  ["5–10", 5, 10],
  ["above 10", 10, Number.POSITIVE_INFINITY],
];
const tightness = (list) => {
  const ratios = list.map(({ certificate: { weightedDeltaE00: w } }) => w.atLeast / w.reached);
  return list.length === 0 ? "–" : [0.1, 0.5, 0.9].map((q) => quantile(ratios, q).toFixed(2)).join(", ");
};
const byReach = table(
  ["largest ΔE₀₀ ÷ allowed", "jobs", "proved", "bound ÷ reached, weighted: 10 %, median, 90 %"],
  reaches.map(([name, from, to]) => {
    const list = out.filter(({ certificate: { worstOfAllowed: w } }) => w.reached > from && w.reached <= to);
    return [name, list.length, share(list.filter(isProved), list), tightness(list)];
  }),
);
const spread = (values, digits) =>
  [0.5, 0.9, 0.99].map((q) => quantile(values, q).toFixed(digits)).join(", ");

writeSection(
  "certificate",
  `## Certificates

${runs.length} random jobs${missing ? " of invented toners" : ", half of invented toners, half of ten acrylics (Berns 2016)"}, answers of version 0.1.0. Each bound above 0 was tried with ${ADDITIONS.toLocaleString("en")} random additions.

- **Violated**: ${violated.length} of ${tried.length} certificates by any addition.
- **False**: ${falsely.length} of ${runs.filter(({ isMade }) => isMade).length} targets made by adding were called out of reach or given a bound above 0.
- **Checked**: ${refused.length} of ${runs.length} certificates were refused by \`verifyCertificate\`.
- **Proved**: ${share(out.filter(isProved), out)} jobs in which no match was found.

Processor time of \`certify\`: ${spread(
    runs.map(({ ms }) => ms.certified),
    1,
  )} ms (median, 90 %, 99 %); of \`verifyCertificate\`: ${spread(
    runs.map(({ ms }) => ms.check),
    1,
  )} ms.`,
  `# Certificates: how near the bounds come

${byReach}`,
);
