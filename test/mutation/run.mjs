// Breaks the code of the layers that compute, one small change at a time, and looks whether a test of the layer
// notices. Takes hours, so it is no part of `npm test`. Results go to coverage/mutation/LAYER.json;
// docs/scripts/mutation.mjs makes the page of them. Run: npm run mutation [-- LAYER…]
import { env } from "node:process";
import { Stryker } from "@stryker-mutator/core";
import { SHARES } from "./shares.mjs";
import options from "./stryker.config.mjs";

const layers = process.argv.length > 2 ? process.argv.slice(2) : Object.keys(SHARES);
const unknown = layers.find((layer) => !Object.hasOwn(SHARES, layer));
if (unknown) throw new Error(`no layer to mutate: ${unknown}; there are ${Object.keys(SHARES).join(", ")}`);

for (const layer of layers) {
  console.log(`\n== ${layer}`);
  env.MUTATED_LAYER = layer;
  env.MUTATED_SHARE = String(SHARES[layer]);
  await new Stryker({
    ...options,
    // Tables are held by the identities they must satisfy, and Stryker does not change numbers anyway.
    mutate: [`src/${layer}/**/*.ts`, "!src/*/data/**"],
    jsonReporter: { fileName: `coverage/mutation/${layer}.json` },
  }).runMutationTest();
}
