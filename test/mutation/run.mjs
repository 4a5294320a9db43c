// Breaks the code of the layers that compute, one small change at a time, and looks whether a test of the layer
// notices. Takes hours, so it is no part of `npm test`. What lived goes to test/mutation/results, of which
// docs/scripts/mutation.mjs makes the page; everything else to coverage/mutation. Run: npm run mutation [-- PART…]
import { readFileSync } from "node:fs";
import { env } from "node:process";
import { Stryker } from "@stryker-mutator/core";
import { PARTS } from "./parts.mjs";
import { summarise, writeSummary } from "./results.mjs";
import options from "./stryker.config.mjs";

const parts = process.argv.length > 2 ? process.argv.slice(2) : Object.keys(PARTS);
const unknown = parts.find((part) => !Object.hasOwn(PARTS, part));
if (unknown) throw new Error(`no part to mutate: ${unknown}; there are ${Object.keys(PARTS).join(", ")}`);

for (const part of parts) {
  console.log(`\n== ${part}`);
  const { share, tests = [`test/${part}`] } = PARTS[part];
  env.MUTATED_SHARE = String(share);
  env.MUTATED_TESTS = JSON.stringify(tests);
  const fileName = `coverage/mutation/${part.replace("/", "-")}.json`;
  await new Stryker({
    ...options,
    mutate: [`src/${part}/*.ts`],
    jsonReporter: { fileName },
  }).runMutationTest();
  writeSummary(summarise(part, share, JSON.parse(readFileSync(fileName, "utf8"))));
}
