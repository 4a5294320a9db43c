// Makes docs/search-times.md and docs/search-growth.svg: what one `correct` takes of a processor, and how that grows. To be run
// on a machine that does nothing else.
// Run from the root: npm run build && node benchmarks/studies/search-times.mjs
import { writeFileSync } from "node:fs";
import { availableParallelism, cpus, loadavg } from "node:os";
import { quantile, table } from "./figures.mjs";
import { growthFigure, ROUNDS, SEEDED_JOBS, timings } from "./searchGrowth.mjs";

const load = loadavg()[0].toFixed(1);
const times = timings();
writeFileSync("docs/search-growth.svg", growthFigure(times));

const judged = (value, goal) =>
  goal === undefined
    ? value.toFixed(1)
    : `${value.toFixed(1)} (≤ ${goal}: ${value <= goal ? "met" : "**missed**"})`;
const timeRows = (rows) =>
  rows.map(({ name, goal = {}, milliseconds }) => [
    name,
    judged(quantile(milliseconds, 0.5), goal.median),
    judged(quantile(milliseconds, 0.99), goal.p99),
  ]);

writeFileSync(
  "docs/search-times.md",
  `# What a correction takes

Made by [benchmarks/studies/search-times.mjs](../benchmarks/studies/search-times.mjs). Milliseconds of processor time of one \`correct\`, all threads together, warm, built package, Node ${process.versions.node}, ${availableParallelism()} cores (${cpus()[0]?.model.trim()}). Waiting for a core does not count, but where others share cores and caches times are longer: the machine's load was ${load} when this began. All take turns in ${ROUNDS} rounds; what is shown is the round with the least median of each. 15 toners × 31 bands × 1 geometry × 1 target × 2 lights, up to four pours; alternatives, reasons and \`certify\` only where said. Beside a goal stands whether it was met.

${table(["one job", "median", "99 %"], timeRows(times.table))}

How it differs from job to job: ${SEEDED_JOBS} seeded jobs of the same size (\`seededJob\` in \`benchmarks/inventedPaint.mjs\`), each the least of three calls.

${table(["many jobs", "median", "99 %"], timeRows(times.jobs))}

![Time of one correction against the number of toners, bands, geometries and targets](search-growth.svg)

The curves belong to another job than the first table's (\`growthJob\`): grown from 15 toners × 31 bands × 1 geometry × 1 target in one direction at a time, the least of ${ROUNDS} medians of three calls.

That the answers are right is on [another page](search.md).
`,
);
