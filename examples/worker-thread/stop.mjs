// One long job in a worker, stopped from outside when the host's clock runs out: the answer is what was found by then.
// Run: node examples/worker-thread/stop.mjs [milliseconds, 50 when absent]
import { argv } from "node:process";
import { Worker } from "node:worker_threads";

const milliseconds = Number(argv[2] ?? 50);
const flag = new Int32Array(new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT));
const worker = new Worker(new URL("stoppable.mjs", import.meta.url), { workerData: flag });

worker.once("message", () => setTimeout(() => Atomics.store(flag, 0, 1), milliseconds));
const { status, cutOff } = await new Promise((answered, failed) => {
  worker.on("error", failed);
  worker.on("message", (message) => message.status && answered(message));
});
await worker.terminate();
console.log(`${status}; ${cutOff ?? "nothing was cut off"}`);
