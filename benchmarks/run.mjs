// Times the built package against plain baselines and prints a table; README.md says how to read it.
// Run: npm run bench
import { correctionCases } from "./cases/correction.mjs";
import { forwardCases } from "./cases/forward.mjs";
import { leastSquaresCases } from "./cases/leastSquares.mjs";
import { weightsCases } from "./cases/weights.mjs";
import { measure } from "./measure.mjs";

const cases = [...forwardCases(), ...correctionCases(), ...weightsCases(), ...(await leastSquaresCases())];
// A baseline that gives other numbers is none.
for (const { check } of cases) check();

const times = await measure(cases.flatMap(({ run, baseline }) => [run, baseline.run]));

const HEAD = ["case", "median", "aim", "met", "baseline", "its median", "ratio"];
const rows = cases.map(({ name, aimMicroseconds, baseline }, i) => {
  const [own, plain] = times.slice(2 * i, 2 * i + 2);
  const aim =
    aimMicroseconds === undefined
      ? ["–", "–"]
      : [`≤ ${text(aimMicroseconds)}`, own <= aimMicroseconds ? "yes" : "no"];
  return [name, text(own), ...aim, baseline.name, text(plain), `${digits(plain / own)} ×`];
});
console.log(table([HEAD, ...rows]));

function text(microseconds) {
  return microseconds < 1000 ? `${digits(microseconds)} µs` : `${digits(microseconds / 1000)} ms`;
}

function digits(value) {
  return value >= 100 ? value.toFixed(0) : value.toPrecision(3);
}

/** Markdown, in columns that stand under each other in a terminal too. */
function table(lines) {
  const widths = lines[0].map((_, column) => Math.max(...lines.map((line) => line[column].length)));
  const padded = lines.map(
    (line) => `| ${line.map((cell, column) => cell.padEnd(widths[column])).join(" | ")} |`,
  );
  const rule = `| ${widths.map((width) => "-".repeat(width)).join(" | ")} |`;
  return [padded[0], rule, ...padded.slice(1)].join("\n");
}
