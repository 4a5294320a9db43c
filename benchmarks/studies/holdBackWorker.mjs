// A thread of hold-back.mjs: plans for the shops it is given and sends back what is true of the plans.
import { parentPort } from "node:worker_threads";
import { importSources } from "./importSources.mjs";

const [trials] = await importSources("test/simulator/planTrials.ts");
const toners = trials.trialToners();

parentPort.on("message", ({ id, trial, seed }) => {
  parentPort.postMessage({ id, outcome: trials[trial](seed, toners) });
});
