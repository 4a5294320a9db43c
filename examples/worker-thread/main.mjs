// Many corrections off the main thread, which stays free: progress while they run, throughput at the end.
// Run: node examples/worker-thread/main.mjs [jobs, 10000 when absent]
import { availableParallelism } from "node:os";
import { argv, cpuUsage, stderr } from "node:process";
import { Worker } from "node:worker_threads";

const jobs = Number(argv[2] ?? 10_000);
if (!Number.isInteger(jobs) || jobs < 1) throw new Error(`how many jobs? not ${argv[2]}`);

const BATCH = 25;
const batches = Array.from({ length: Math.ceil(jobs / BATCH) }, (_, i) => ({
  first: i * BATCH,
  count: Math.min(BATCH, jobs - i * BATCH),
}));

const counts = {};
let done = 0;
const started = performance.now();
await Promise.all(Array.from({ length: Math.min(availableParallelism(), batches.length) }, runWorker));
const seconds = (performance.now() - started) / 1000;
if (stderr.isTTY) stderr.write("\n");
const { user, system } = cpuUsage();
const each = (user + system) / 1000 / jobs;
console.log(`${jobs} jobs in ${seconds.toFixed(1)} s: ${(jobs / seconds).toFixed(1)} a second`);
console.log(`${each.toFixed(0)} ms of processor time each, with starting up`);
for (const [status, count] of Object.entries(counts).sort()) console.log(`${status} ${count}`);

/** Gives one worker batch after batch until none is left. */
function runWorker() {
  const worker = new Worker(new URL("worker.mjs", import.meta.url));
  return new Promise((finished, failed) => {
    const next = () => {
      const batch = batches.shift();
      if (batch) return worker.postMessage(batch);
      worker.terminate().then(finished);
    };
    worker.on("error", failed);
    worker.on("message", (statuses) => {
      for (const status of statuses) counts[status] = (counts[status] ?? 0) + 1;
      done += statuses.length;
      if (stderr.isTTY) stderr.write(`\r${done} of ${jobs}`);
      next();
    });
    next();
  });
}
