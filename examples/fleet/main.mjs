// Makes a library of formulas anew after a toner's batch has changed: slices in a queue, several processes, one file.
// Run: node examples/fleet/main.mjs [formulas] [processes] [folder]; started again with the same folder it goes on.
import { fork, spawn } from "node:child_process";
import { once } from "node:events";
import { existsSync, mkdirSync, renameSync, writeFileSync } from "node:fs";
import { availableParallelism } from "node:os";
import { join, resolve } from "node:path";
import { argv, env, stderr } from "node:process";
import { setTimeout } from "node:timers/promises";
import { Queue } from "bullmq";
import { connection, QUEUE } from "./queue.mjs";

const [formulas = 100_000, processes = availableParallelism()] = argv.slice(2, 4).map(Number);
const folder = resolve(argv[4] ?? "fleet-work");
for (const [count, what] of [
  [formulas, "formulas"],
  [processes, "processes"],
]) {
  if (!Number.isInteger(count) || count < 1) throw new Error(`how many ${what}? not ${count}`);
}

const SLICE = 50;
const MAX_RESTARTS = 100;
const workers = new Set();
let ending = false;
mkdirSync(folder, { recursive: true });
const server = env.FLEET_REDIS ? undefined : await startServer();
const queue = new Queue(QUEUE, { connection: connection() });

const slices = Array.from({ length: Math.ceil(formulas / SLICE) }, (_, i) => ({
  first: i * SLICE,
  count: Math.min(SLICE, formulas - i * SLICE),
}));
// A slice that is in the queue already, done or not, is not added again: the id says what it is.
const idOf = ({ first, count }) => `green-batch-2-${first}-${count}`;
await queue.addBulk(
  slices.map((slice) => ({
    name: "slice",
    data: slice,
    opts: { jobId: idOf(slice), attempts: 3, backoff: { type: "exponential", delay: 500 } },
  })),
);

const queued = Object.values(await queue.getJobCounts()).reduce((sum, count) => sum + count, 0);
if (queued !== slices.length) {
  await end();
  throw new Error(
    `the queue holds ${queued} slices, not ${slices.length}: another library; take another folder`,
  );
}
for (const signal of ["SIGINT", "SIGTERM"]) process.once(signal, () => end().then(() => process.exit(1)));

const before = await queue.getCompletedCount();
const started = performance.now();
let restarts = 0;
for (let i = 0; i < processes; i++) startWorker();
await allEnded();
const seconds = (performance.now() - started) / 1000;
const failed = await queue.getFailed();
const done = (slices.length - before - failed.length) * SLICE;
const counts = failed.length === 0 ? await writeResult() : {};
await end();

const made = Math.min(done, formulas);
console.log(`${formulas} formulas, ${processes} processes, ${restarts} dead ones replaced`);
console.log(`${made} made now in ${seconds.toFixed(1)} s: ${(made / seconds).toFixed(1)} a second`);
for (const [status, count] of Object.entries(counts).sort()) console.log(`${status} ${count}`);
for (const { data, failedReason } of failed) console.log(`failed from ${data.first}: ${failedReason}`);
if (failed.length > 0) process.exitCode = 1;

/** A server of our own on a socket in the folder, which writes down every step. */
async function startServer() {
  const socket = join(folder, "redis.sock");
  const options = { port: 0, unixsocket: socket, dir: folder, appendonly: "yes", appendfsync: "everysec" };
  const args = Object.entries(options).flatMap(([key, value]) => [`--${key}`, String(value)]);
  // Detached: Ctrl-C reaches this program alone, which ends the workers before the server.
  const child = spawn("redis-server", args, { stdio: "ignore", detached: true });
  child.on("error", (error) => {
    throw new Error(`cannot start redis-server: ${error.message}; install it, or name one in FLEET_REDIS`);
  });
  env.FLEET_REDIS = socket;
  for (let tries = 0; !existsSync(socket); tries++) {
    if (tries === 100) throw new Error("redis-server does not answer");
    await setTimeout(50);
  }
  return child;
}

/** One process more; one that dies before the end is replaced. */
function startWorker() {
  const worker = fork(new URL("worker.mjs", import.meta.url));
  workers.add(worker);
  console.log(`worker ${worker.pid}`);
  worker.on("exit", () => {
    workers.delete(worker);
    if (ending) return;
    if (++restarts > MAX_RESTARTS) throw new Error("workers keep dying");
    startWorker();
  });
}

async function allEnded() {
  for (let shown = -1; ; ) {
    const { completed, failed } = await queue.getJobCounts("completed", "failed");
    if (completed > shown) stderr.write(`${Math.min(completed * SLICE, formulas)} of ${formulas}\n`);
    shown = completed;
    if (completed + failed >= slices.length) return;
    await setTimeout(200);
  }
}

/** All lines in the order of the library, in a file that is whole or not there. */
async function writeResult() {
  const counts = {};
  const lines = [];
  for (const slice of slices) {
    const { returnvalue } = await queue.getJob(idOf(slice));
    for (const line of returnvalue) {
      if (line.number !== lines.length) throw new Error(`line ${lines.length} is of formula ${line.number}`);
      counts[line.status] = (counts[line.status] ?? 0) + 1;
      lines.push(JSON.stringify(line));
    }
  }
  if (lines.length !== formulas) throw new Error(`${lines.length} lines for ${formulas} formulas`);
  const path = join(folder, "library.jsonl");
  writeFileSync(`${path}.part`, `${lines.join("\n")}\n`);
  renameSync(`${path}.part`, path);
  return counts;
}

async function end() {
  ending = true;
  await Promise.all(
    Array.from(workers, (worker) => {
      worker.kill();
      return once(worker, "exit");
    }),
  );
  await queue.close();
  if (!server) return;
  server.kill();
  await once(server, "exit");
}
