import { once } from "node:events";
import { Worker } from "node:worker_threads";

/** Jobs on some threads of a worker (`loopWorker.mjs`, …); what became of them, in their order. */
export async function runJobs(workerFile, jobs, threads = 2) {
  const outcomes = new Array(jobs.length);
  let next = 0;
  await Promise.all(
    Array.from({ length: threads }, async () => {
      const worker = new Worker(new URL(workerFile, import.meta.url));
      while (next < jobs.length) {
        const id = next++;
        worker.postMessage({ ...jobs[id], id });
        const [{ outcome }] = await once(worker, "message");
        outcomes[id] = outcome;
        if (id % 500 === 499) console.error(`${id + 1} of ${jobs.length} jobs`);
      }
      await worker.terminate();
    }),
  );
  return outcomes;
}
