import { once } from "node:events";
import { Worker } from "node:worker_threads";

/** Jobs { arm, options, seed } on some threads; what became of them, in their order. */
export async function runJobs(jobs, threads = 2) {
  const outcomes = new Array(jobs.length);
  let next = 0;
  await Promise.all(
    Array.from({ length: threads }, async () => {
      const worker = new Worker(new URL("loopWorker.mjs", import.meta.url));
      while (next < jobs.length) {
        const id = next++;
        worker.postMessage({ ...jobs[id], id });
        const [{ outcome }] = await once(worker, "message");
        outcomes[id] = outcome;
        if (id % 100 === 99) console.error(`${id + 1} of ${jobs.length} jobs`);
      }
      await worker.terminate();
    }),
  );
  return outcomes;
}
