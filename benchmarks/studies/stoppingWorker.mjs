// A thread of stopping.mjs: does the jobs it is given and sends back what became of them.
import { parentPort } from "node:worker_threads";
import { importSources } from "./importSources.mjs";

const [worlds, running, ways] = await importSources(
  "test/simulator/world.ts",
  "test/loop/runStops.ts",
  "test/loop/arms.ts",
);
const { uncertainty: _, ...toners } = worlds.knownToners();

parentPort.on("message", ({ id, seed, most }) => {
  const rule = most === undefined ? running.advised : running.untilItReads(most);
  parentPort.postMessage({ id, outcome: running.runStops(seed, toners, rule, ways.ruleOfThumbPot) });
});
