// A thread of loop.mjs: does the jobs it is given and sends back what became of them.
import { parentPort } from "node:worker_threads";
import { importSources } from "./importSources.mjs";

const [worlds, running, ways, oracles] = await importSources(
  "test/simulator/world.ts",
  "test/loop/runJob.ts",
  "test/loop/arms.ts",
  "test/loop/oracle.ts",
);
const ARMS = { ...ways.ARMS, oracle: oracles.oracle };

/** Uncertainty of the characterisation plays no part in a correction and takes time to check. */
const { uncertainty: _, ...toners } = worlds.knownToners();

parentPort.on("message", ({ id, arm, options, seed }) => {
  parentPort.postMessage({ id, outcome: running.runJob(seed, toners, ARMS[arm], options) });
});
