// Takes slices of the library until it is told to stop. Start as many as there are cores, on as many machines.
import { setImmediate } from "node:timers/promises";
import { Worker } from "bullmq";
import { connection, QUEUE, SILENT_MS } from "./queue.mjs";
import { solve } from "./solve.mjs";

const worker = new Worker(QUEUE, solveSlice, {
  connection: connection(),
  lockDuration: SILENT_MS,
  stalledInterval: SILENT_MS,
  // A slice whose workers died this often is a failure to look at, not one to try for ever.
  maxStalledCount: 5,
});
worker.on("error", (error) => console.error(error.message));
const end = () => worker.close().then(() => process.exit());
process.on("SIGTERM", end);
process.on("disconnect", end);
process.on("SIGINT", () => {}); // Ctrl-C is for main, which then ends its workers.

/** What is returned is stored with the slice's end in one step, by the worker that holds its lock alone. */
async function solveSlice({ data: { first, count } }) {
  const lines = [];
  for (let number = first; number < first + count; number++) {
    lines.push(solve(number));
    // Lets the queue renew the lock.
    await setImmediate();
  }
  return lines;
}
