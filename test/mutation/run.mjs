// Breaks the code of the layers that compute, one small change at a time, and looks whether a test of the layer
// notices. Takes hours, so it is no part of `npm test`. What lived goes to test/mutation/results, of which
// benchmarks/studies/mutation.mjs makes the page; everything else to coverage/mutation. Run: npm run mutation [-- PART…]
// After writing tests for those that lived, `npm run mutation -- --lived [PART…]` tries these lines alone again.
import { readFileSync } from "node:fs";
import { env } from "node:process";
import { Stryker } from "@stryker-mutator/core";
import { PARTS } from "./parts.mjs";
import { linesOf, mergeLived, readSummaries, summarise, writeSummary } from "./results.mjs";
import options from "./stryker.config.mjs";

const isAgain = process.argv[2] === "--lived";
const asked = process.argv.slice(isAgain ? 3 : 2);
const parts = asked.length > 0 ? asked : Object.keys(PARTS);
const unknown = parts.find((part) => !Object.hasOwn(PARTS, part));
if (unknown) throw new Error(`no part to mutate: ${unknown}; there are ${Object.keys(PARTS).join(", ")}`);

for (const part of parts) {
  console.log(`\n== ${part}`);
  const before = isAgain ? readSummaries().find((summary) => summary.part === part) : undefined;
  if (isAgain && !before?.lived.length) continue;
  const { files = [`${part}/*`], tests = [`test/${part}`] } = PARTS[part];
  const share = before?.share ?? PARTS[part].share;
  env.MUTATED_SHARE = String(share);
  env.MUTATED_TESTS = JSON.stringify(tests);
  const mutate = before
    ? linesOf(before).map(({ file, line }) => `src/${file}:${line}-${line}`)
    : files.map((name) => `src/${name}.ts`);
  const fileName = `coverage/mutation/${part.replace("/", "-")}${isAgain ? "-again" : ""}.json`;
  await new Stryker({ ...options, mutate, jsonReporter: { fileName } }).runMutationTest();
  const now = summarise(part, share, JSON.parse(readFileSync(fileName, "utf8")));
  writeSummary(before ? mergeLived(before, now) : now);
}
