import { Bench } from "tinybench";

/** Before the first round, in milliseconds a function: the engine goes on compiling for hundreds of calls. */
const WARM_UP = 1500;
const ROUNDS = 9;
/** Each function in each round. */
const TIME = 60;
/** A sample is as many calls as take this long, so that the clock does not count. */
const SAMPLE = 0.5;

/**
 * Median time of one call of each function in its quietest round, in microseconds. All take turns, round by round,
 * so that a busy spell of the machine falls on all of them and a quiet one is not missed by any.
 */
export async function measure(functions) {
  // All go through `repeat` before the engine compiles it: it would work the first one into it, constants and all.
  for (const run of functions) repeat(run, 1);
  const contestants = functions.map((run, i) => ({ name: String(i), run, calls: warmUp(run) }));
  const medians = functions.map(() => []);
  for (let round = 0; round < ROUNDS; round++) {
    const bench = new Bench({ time: TIME, iterations: 3, warmup: false });
    for (const { name, run, calls } of contestants) {
      bench.add(name, () => repeat(run, calls), { async: false });
    }
    await bench.run();
    bench.tasks.forEach(({ result }, i) => {
      medians[i].push((1000 * result.latency.p50) / contestants[i].calls);
    });
  }
  return medians.map((values) => Math.min(...values));
}

function repeat(run, calls) {
  for (let i = 0; i < calls; i++) run();
}

/** Calls a function until it is warm; returns how many calls make a sample. */
function warmUp(run) {
  const start = performance.now();
  let calls = 0;
  let now = start;
  while (now - start < WARM_UP) {
    repeat(run, 1);
    calls++;
    now = performance.now();
  }
  return Math.max(1, Math.round((SAMPLE * calls) / (now - start)));
}
