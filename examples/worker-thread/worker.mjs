// One worker: works out the jobs it is asked for and sends back how each ended. The toners are read once.
import { readFileSync } from "node:fs";
import { parentPort } from "node:worker_threads";
import { correct } from "masstone";
import { readJob, readToners } from "masstone/formats";

const file = (name) => readFileSync(new URL(`../horsebox/${name}`, import.meta.url), "utf8");
const job = readJob(file("job.json"), (name) => readToners(file(name)));

parentPort.on("message", ({ first, count }) => {
  const statuses = Array.from({ length: count }, (_, i) => correct(fadedBy(first + i)).status);
  parentPort.postMessage(statuses);
});

/** The horsebox's job with its panels faded a little more, or less, by the number of the job: each is another. */
function fadedBy(number) {
  const lift = 1 + 0.15 * Math.sin(number);
  const tilt = 0.1 * Math.sin(number * Math.SQRT2);
  const fade = (value, band, { length }) => value * (lift + tilt * (band / (length - 1) - 0.5));
  const targets = job.targets.map((target) => ({
    ...target,
    readings: target.readings.map((reading) => ({
      ...reading,
      reflectance: Array.from(reading.reflectance).map(fade),
    })),
  }));
  return { ...job, targets };
}
