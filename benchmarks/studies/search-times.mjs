// Makes "search-times" in docs/evidence.md, and docs/search-growth.svg: what one `correct` takes of a processor, and how that grows. To be run
// on a machine that does nothing else.
// Run from the root: npm run build && node benchmarks/studies/search-times.mjs
import { writeFileSync } from "node:fs";
import { availableParallelism, cpus, loadavg } from "node:os";
import { quantile, table } from "./figures.mjs";
import { growthFigure, ROUNDS, SEEDED_JOBS, timings } from "./searchGrowth.mjs";
import { writeSection } from "./writeSection.mjs";

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

writeSection(
  "search-times",
  `## What a correction takes

Milliseconds of processor time of one \`correct\`, warm, Node ${process.versions.node}, ${availableParallelism()} cores (${cpus()[0]?.model.trim()}), load ${load} at the start; the best of ${ROUNDS} rounds. 15 toners × 31 bands × 1 target × 2 lights, up to four pours; alternatives, reasons and \`certify\` only where said.

${table(["one job", "median", "99 %"], timeRows(times.table))}

${SEEDED_JOBS} seeded jobs of the same size (\`seededJob\` in \`benchmarks/inventedPaint.mjs\`):

${table(["many jobs", "median", "99 %"], timeRows(times.jobs))}

![Time of one correction against the number of toners, bands, geometries and targets](search-growth.svg)`,
);
