// Makes docs/certificate.md: certificates of random jobs, held to random additions and to the checker. Jobs and trials are
// those of test/certificate; the solver is the built package. With MASSTONE_OPEN_DATA set, half of the jobs are
// on measured K and S. JOBS and ADDITIONS make a shorter run.
// Run from the root: npm run build && node benchmarks/studies/certificate.mjs
import { readFileSync, writeFileSync } from "node:fs";
import { correct } from "masstone";
import { certify, verifyCertificate } from "masstone/certificate";
import { readToners } from "masstone/formats";
import { quantile, table } from "./figures.mjs";
import { importSources } from "./importSources.mjs";

const JOBS = Number(process.env.JOBS ?? 240);
const ADDITIONS = Number(process.env.ADDITIONS ?? 100_000);

const [{ randomJob, KINDS }, { leastMeasures }, openData, { cropTonerSet }] = await importSources(
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
const byKind = table(
  ["target", "jobs", "matched", "out of reach, proved", "not proved"],
  KINDS.map((kind) => {
    const list = runs.filter((run) => run.kind === kind);
    const outs = list.filter(isOut);
    return [
      kind,
      list.length,
      list.length - outs.length,
      outs.filter(isProved).length,
      outs.filter((run) => !isProved(run)).length,
    ];
  }),
);
const spread = (values, digits) =>
  [0.5, 0.9, 0.99].map((q) => quantile(values, q).toFixed(digits)).join(", ");
const ratio =
  quantile(
    runs.map(({ ms }) => ms.corrected + ms.certified),
    0.5,
  ) /
  quantile(
    runs.map(({ ms }) => ms.corrected),
    0.5,
  );
const times = table(
  ["processor time, ms: median, 90 %, 99 %", "all jobs", "those out of reach"],
  [
    [
      "`correct`",
      spread(
        runs.map(({ ms }) => ms.corrected),
        1,
      ),
      spread(
        out.map(({ ms }) => ms.corrected),
        1,
      ),
    ],
    [
      "`certify`",
      spread(
        runs.map(({ ms }) => ms.certified),
        1,
      ),
      spread(
        out.map(({ ms }) => ms.certified),
        1,
      ),
    ],
    [
      "`verifyCertificate`",
      spread(
        runs.map(({ ms }) => ms.check),
        1,
      ),
      spread(
        out.map(({ ms }) => ms.check),
        1,
      ),
    ],
    [
      "certificate as JSON, kB",
      spread(
        runs.map(({ bytes }) => bytes / 1000),
        1,
      ),
      spread(
        out.map(({ bytes }) => bytes / 1000),
        1,
      ),
    ],
  ],
);

const page = `# Certificates, measured

What \`certify\` proves of random corrections. Made by \`benchmarks/studies/certificate.mjs\`; the same jobs, fewer and shorter, are tests in \`test/certificate\`. [theory.md](theory.md#certificate) has the mathematics.

## What was done

${runs.length} jobs${missing ? " on the shipped example's invented toners" : ", half on the shipped example's invented toners, half on ten real acrylics by their fitted K and S (Berns 2016)"}: 5 to all of the toners of a set, a pot of white and up to four others, a card of cans up to 15 % off with noise, one to two lights, a cup with room for 20 to 420 g more, stock limits on some toners. Pours and scale are left free, as the certificate leaves them out of account. Targets: *added*, made exactly by adding to the pot within the limits; *other*, another recipe of the same toners; *taken*, the pot with some of a toner taken out; *strange*, a bent reflectance that no paint need have. Tolerance 0.5 ΔE₀₀.

To each certificate with a bound above 0, ${ADDITIONS.toLocaleString("en")} random additions within stock and room: a quarter anywhere, the others ever nearer around the best so far, for either measure in turn.

## What came out

- **Violated**: ${violated.length} of ${tried.length} certificates by any addition.
- **False**: ${falsely.length} of ${runs.filter(({ isMade }) => isMade).length} targets made by adding were called out of reach or given a bound above 0.
- **Checked**: ${refused.length} of ${runs.length} certificates were refused by \`verifyCertificate\`.
- **Proved**: ${share(out.filter(isProved), out)} jobs in which no match was found.

${byReach}

${byKind}

The largest ΔE₀₀ in the first table is that of the answer, which makes the weighted one small: just above 1 a match may exist that it does not look for, and then there is nothing to prove.

## What it takes

${times}

One processor, warm, other work on it at the time; with its certificate the median correction takes ${ratio.toFixed(1)} times as long.
`;
writeFileSync(new URL("../../docs/certificate.md", import.meta.url), page);
