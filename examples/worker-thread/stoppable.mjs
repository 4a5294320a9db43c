// A worker whose work ends soon after the flag that it shares with its host is raised.
import { readFileSync } from "node:fs";
import { workerData as flag, parentPort } from "node:worker_threads";
import { correct } from "masstone";
import { readJob, readToners } from "masstone/formats";

const file = (name) => readFileSync(new URL(`../horsebox/${name}`, import.meta.url), "utf8");
const job = readJob(file("job.json"), (name) => readToners(file(name)));

parentPort.postMessage({ isReady: true });
// A budget without end, and a forecast that would draw for long: it is the host's clock that counts here.
const { status, warnings } = correct(job, {
  forecast: { drawsOfReturn: 100_000 },
  maxWork: 1e15,
  shouldStop: () => Atomics.load(flag, 0) === 1,
});
parentPort.postMessage({ status, cutOff: warnings.find(({ code }) => code === "work-limit")?.message });
